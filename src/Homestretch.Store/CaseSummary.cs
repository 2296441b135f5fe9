using NodaTime;

namespace Homestretch.Store;

/// <summary>A line in the list of cases.</summary>
/// <param name="Key">Names the case in addresses.</param>
/// <param name="Candidate">The person.</param>
/// <param name="ExamName">The exam's name.</param>
/// <param name="ExamDay">The day of the exam.</param>
/// <param name="CreatedAt">When it was entered.</param>
/// <param name="RemovedAt">When it was removed; null while it is in use.</param>
public sealed record CaseSummary(string Key, string Candidate, string ExamName, LocalDate ExamDay, Instant CreatedAt, Instant? RemovedAt);
