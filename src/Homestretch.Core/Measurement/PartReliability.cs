namespace Homestretch.Core.Measurement;

/// <summary>Reliability of a part of a test.</summary>
/// <param name="Name">The section or topic.</param>
/// <param name="Reliability">Its figures.</param>
/// <param name="Classification">Pass and fail decisions on it; null where the exam has no mark for it.</param>
public sealed record PartReliability(string Name, ReliabilityReport Reliability, ClassificationReport? Classification);
