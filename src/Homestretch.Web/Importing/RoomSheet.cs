namespace Homestretch.Web.Importing;

/// <summary>A candidates sheet as a person gave it to us.</summary>
/// <param name="Name">Its name, without folders.</param>
/// <param name="Content">Its bytes.</param>
public sealed record RoomSheet(string Name, ReadOnlyMemory<byte> Content);
