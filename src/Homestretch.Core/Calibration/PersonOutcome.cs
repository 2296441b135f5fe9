using NodaTime;

namespace Homestretch.Core.Calibration;

/// <summary>What was forecast for one person and what came of it.</summary>
/// <param name="Candidate">The person.</param>
/// <param name="Attempt">Name of the attempt that counts as the outcome.</param>
/// <param name="Date">Its day, for which the forecast was made.</param>
/// <param name="EvidenceItems">Items of evidence dated before it.</param>
/// <param name="PassChance">The pass chance forecast.</param>
/// <param name="Passed">Whether the outcome met the exam's pass rule.</param>
public sealed record PersonOutcome(string Candidate, string Attempt, LocalDate Date, int EvidenceItems, double PassChance, bool Passed);
