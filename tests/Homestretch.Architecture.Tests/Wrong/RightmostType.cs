namespace Homestretch.Architecture.Tests.Wrong.Planning;

/// <summary>In order: it uses a room to its left.</summary>
public sealed class RightmostType
{
    public int Value { get; } = new Measurement.BesideType(3).Value;
}
