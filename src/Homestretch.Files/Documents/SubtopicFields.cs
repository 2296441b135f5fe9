namespace Homestretch.Files.Documents;

/// <summary>A part of a topic.</summary>
/// <param name="Name">Name.</param>
/// <param name="Items">Scored items.</param>
/// <param name="Weight">As published; null where no weight is published.</param>
public sealed record SubtopicFields(string Name, int Items, string? Weight);
