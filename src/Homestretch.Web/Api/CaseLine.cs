namespace Homestretch.Web.Api;

/// <summary>A line in the list of cases.</summary>
/// <param name="Key">Names the case in addresses.</param>
/// <param name="Candidate">The person.</param>
/// <param name="ExamName">The exam's name.</param>
/// <param name="ExamDay">The day of the exam, ISO 8601.</param>
/// <param name="CreatedAt">When it was entered, ISO 8601 in UTC.</param>
/// <param name="RemovedAt">When it was removed; null while it is in use.</param>
public sealed record CaseLine(string Key, string Candidate, string ExamName, string ExamDay, string CreatedAt, string? RemovedAt);
