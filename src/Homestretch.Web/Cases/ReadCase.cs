using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Web.Cases;

/// <summary>A case whose files have been read without a problem.</summary>
/// <param name="Key">Names the case in addresses.</param>
/// <param name="Candidate">The person.</param>
/// <param name="Exam">The exam.</param>
/// <param name="Attempts">The person's attempts.</param>
/// <param name="Results">Everyone's attempts in evidence and cohort files, to learn from.</param>
/// <param name="Bank">Calibrated items; null where none were given.</param>
/// <param name="Free">When the person can study.</param>
/// <param name="Busy">The busy calendar; null where none was given. Read anew for every horizon.</param>
/// <param name="ExamDay">The day of the exam as entered.</param>
/// <param name="Story">One line about the person, for the demo only.</param>
/// <param name="PlaysAt">The moment at which a demo case plays; null where the clock decides.</param>
public sealed record ReadCase(
    string Key,
    string Candidate,
    Exam Exam,
    ImmutableArray<Attempt> Attempts,
    ImmutableArray<Attempt> Results,
    ItemBank? Bank,
    FreeTime Free,
    NamedFile? Busy,
    LocalDate ExamDay,
    string? Story,
    LocalDateTime? PlaysAt)
{
    /// <summary>Whether the case belongs to the demo and so cannot be removed.</summary>
    public bool IsDemo => PlaysAt is not null;

    /// <summary>All sittings, with answers item by item, of the diagnostic this person took; of the diagnostic most people took where this person took none. Null where there are no such answers.</summary>
    public ImmutableArray<Attempt>? TestOfTheRoom()
    {
        IGrouping<string, Attempt>? test = Results
            .Where(a => a.Observations.Any(o => o is ItemResponse))
            .GroupBy(a => a.Name, StringComparer.OrdinalIgnoreCase)
            .OrderByDescending(t => t.Any(a => a.Kind == AttemptKind.Diagnostic))
            .ThenByDescending(t => t.Any(a => string.Equals(a.Candidate, Candidate, StringComparison.OrdinalIgnoreCase)))
            .ThenByDescending(t => t.Count())
            .FirstOrDefault();
        return test is null ? null : [.. test];
    }
}
