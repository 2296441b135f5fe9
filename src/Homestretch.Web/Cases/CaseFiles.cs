using System.Collections.Immutable;

using NodaTime;

namespace Homestretch.Web.Cases;

/// <summary>A case before its files are read.</summary>
/// <param name="Key">Names the case in addresses.</param>
/// <param name="Candidate">The person, as named in the evidence; null to take the only one there.</param>
/// <param name="ExamDay">The day of the exam.</param>
/// <param name="Story">One line about the person, for the demo only.</param>
/// <param name="From">The moment at which a demo case plays; null where the clock decides.</param>
/// <param name="Files">Its files.</param>
public sealed record CaseFiles(
    string Key,
    string? Candidate,
    LocalDate ExamDay,
    string? Story,
    LocalDateTime? From,
    ImmutableArray<NamedFile> Files);
