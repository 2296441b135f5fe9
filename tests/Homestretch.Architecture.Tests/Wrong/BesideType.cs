namespace Homestretch.Architecture.Tests.Wrong.Measurement;

/// <summary>What the wrong example beside it uses.</summary>
public sealed record BesideType(int Value);
