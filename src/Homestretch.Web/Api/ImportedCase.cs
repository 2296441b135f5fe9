namespace Homestretch.Web.Api;

/// <summary>A case that an import made.</summary>
/// <param name="Key">Names the case in addresses.</param>
/// <param name="Candidate">The person.</param>
/// <param name="Line">The line of the sheet, from 1.</param>
public sealed record ImportedCase(string Key, string Candidate, int Line);
