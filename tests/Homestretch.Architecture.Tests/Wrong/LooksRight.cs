namespace Homestretch.Architecture.Tests.Wrong.Blueprints;

/// <summary>A wrong example: its left room uses a type of a room to its right, inside a method only.</summary>
public static class LooksRight
{
    public static int Depend() => new Planning.RightmostType().Value;
}
