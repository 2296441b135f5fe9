namespace Homestretch.Files.Documents;

/// <summary>Where figures were published.</summary>
/// <param name="Title">Title of the handbook or page.</param>
/// <param name="Date">Its date, ISO 8601.</param>
/// <param name="Where">Address or shelf mark, where given.</param>
public sealed record SourceFields(string Title, string Date, string? Where);
