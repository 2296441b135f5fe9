namespace Homestretch.Store;

/// <summary>A case that prepares for an exam.</summary>
/// <param name="Key">Names the case in addresses.</param>
/// <param name="Candidate">The person.</param>
public sealed record ExamCase(string Key, string Candidate);
