namespace Homestretch.Architecture.Tests.Wrong.Cellar;

/// <summary>A wrong example: a folder that is no room.</summary>
public sealed class NoRoom;
