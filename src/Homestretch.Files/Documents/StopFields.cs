namespace Homestretch.Files.Documents;

/// <summary>Why a quick diagnostic may stop.</summary>
/// <param name="Reason"><c>settled</c>, <c>little-to-learn</c>, <c>long-enough</c> or <c>nothing-left</c>.</param>
/// <param name="Sentence">The same in a sentence.</param>
public sealed record StopFields(string Reason, string Sentence);
