namespace Homestretch.Files.Documents;

/// <summary>What was forecast for one person and what came of it.</summary>
/// <param name="Candidate">The person's name as the evidence gives it.</param>
/// <param name="Attempt">The attempt that counts as the outcome.</param>
/// <param name="Date">Its day, ISO 8601.</param>
/// <param name="EvidenceItems">Items of evidence dated before it.</param>
/// <param name="PassChance">The pass chance forecast.</param>
/// <param name="Passed">Whether the person passed.</param>
public sealed record PersonOutcomeFields(string Candidate, string Attempt, string Date, int EvidenceItems, double PassChance, bool Passed);
