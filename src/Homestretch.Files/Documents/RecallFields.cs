namespace Homestretch.Files.Documents;

/// <summary>One recall of a word.</summary>
/// <param name="Day">The day, ISO 8601.</param>
/// <param name="Outcome"><c>knew</c>, <c>partly</c> or <c>not</c>.</param>
public sealed record RecallFields(string Day, string Outcome);
