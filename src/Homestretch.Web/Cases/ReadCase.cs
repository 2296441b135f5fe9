using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Measurement;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Files;
using Homestretch.Files.Resources;
using Homestretch.Files.StudyLogs;

using NodaTime;

namespace Homestretch.Web.Cases;

/// <summary>A case whose files have been read without a problem.</summary>
/// <param name="Key">Names the case in addresses.</param>
/// <param name="Person">The person among everybody whose results are known.</param>
/// <param name="Exam">The exam.</param>
/// <param name="Free">When the person can study.</param>
/// <param name="Busy">The busy calendar; null where none was given. Read anew for every horizon.</param>
/// <param name="ExamDay">The day of the exam as entered.</param>
/// <param name="Story">One line about the person, for the demo only.</param>
/// <param name="PlaysAt">The moment at which a demo case plays; null where the clock decides.</param>
public sealed record ReadCase(
    string Key,
    StudiedCandidate Person,
    Exam Exam,
    FreeTime Free,
    NamedFile? Busy,
    LocalDate ExamDay,
    string? Story,
    LocalDateTime? PlaysAt)
{
    /// <summary>What there is to study from, or why the catalogue cannot be read for this exam, which hinders nothing else; null where there is none.</summary>
    public ReadResult<ResourceCatalogue>? Resources { get; init; }

    /// <summary>The person's name.</summary>
    public string Candidate => Person.Name;

    /// <summary>Whether the case belongs to the demo and so cannot be removed.</summary>
    public bool IsDemo => PlaysAt is not null;

    /// <summary>Days of official exams whose results were recorded without figures by topic.</summary>
    public ImmutableArray<LocalDate> RecordedSittings { get; init; } = [];

    /// <summary>Days on which the person sat the official exam.</summary>
    public ImmutableArray<LocalDate> Sittings => [.. Person.Attempts.Where(a => a.Kind == AttemptKind.Official).Select(a => a.Date).Concat(RecordedSittings).Distinct().Order()];

    /// <summary>All sittings, with answers item by item, of the diagnostic this person took; of the diagnostic most people took where this person took none. Null where there are no such answers.</summary>
    public ImmutableArray<Attempt>? TestOfTheRoom()
    {
        IGrouping<string, Attempt>? test = ItemScores.ByTest(Person.Everybody)
            .OrderByDescending(t => t.Any(a => a.Kind == AttemptKind.Diagnostic))
            .ThenByDescending(t => t.Any(a => string.Equals(a.Candidate, Candidate, StringComparison.OrdinalIgnoreCase)))
            .ThenByDescending(t => t.Count())
            .FirstOrDefault();
        return test is null ? null : [.. test];
    }
}
