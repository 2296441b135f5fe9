namespace Homestretch.Files.Documents;

/// <summary>A block that was wished at a given time.</summary>
/// <param name="Start">Its start, ISO 8601 with offset.</param>
/// <param name="Topic">Its topic.</param>
public sealed record PinFields(string Start, string Topic);
