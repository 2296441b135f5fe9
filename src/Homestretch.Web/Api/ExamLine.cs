namespace Homestretch.Web.Api;

/// <summary>A line in the list of exams.</summary>
/// <param name="Key">Names the exam in addresses.</param>
/// <param name="Name">The exam's name.</param>
/// <param name="Cases">Cases in use that prepare for it.</param>
/// <param name="ChangedAt">When the version that counts came, ISO 8601 in UTC.</param>
public sealed record ExamLine(string Key, string Name, int Cases, string ChangedAt);
