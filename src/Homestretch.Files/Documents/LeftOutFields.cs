namespace Homestretch.Files.Documents;

/// <summary>A person who could not be compared.</summary>
/// <param name="Candidate">The person's name as the evidence gives it.</param>
/// <param name="Reason">no-outcome, nothing-before, incomplete or ambiguous.</param>
public sealed record LeftOutFields(string Candidate, string Reason);
