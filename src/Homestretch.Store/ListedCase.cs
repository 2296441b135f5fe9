using Homestretch.Core.Rooms;

namespace Homestretch.Store;

/// <summary>A line in the list of who needs the coach.</summary>
/// <param name="Key">Names the case in addresses.</param>
/// <param name="Candidate">The person.</param>
/// <param name="ExamKey">Names the exam.</param>
/// <param name="Figures">What is known.</param>
public sealed record ListedCase(string Key, string Candidate, string ExamKey, CandidateFigures Figures);
