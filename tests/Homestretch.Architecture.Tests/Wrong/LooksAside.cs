namespace Homestretch.Architecture.Tests.Wrong.Standing;

/// <summary>A wrong example: standing does not know how items are calibrated.</summary>
public sealed record LooksAside(Measurement.BesideType Beside);
