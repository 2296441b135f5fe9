using System.Collections.Immutable;

using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;
using Homestretch.Files.StudyLogs;

using NodaTime.Text;

namespace Homestretch.Files.Documents;

/// <summary>Where a person stands.</summary>
/// <param name="Exam">Name of the exam.</param>
/// <param name="Candidate">The person's name as the evidence gives it.</param>
/// <param name="AsOf">The day the standing is for, ISO 8601; evidence counts less the older it is on that day.</param>
/// <param name="EvidenceItems">Items in all attempts that speak of ability.</param>
/// <param name="SetAside">Answers that do not.</param>
/// <param name="Notes">What there is to know about the tests beside the answers, sentences.</param>
/// <param name="Topics">In the order of the exam.</param>
/// <param name="Sections">In the order of the exam.</param>
/// <param name="Basis">The assumptions and calibrated items that the figures rest on.</param>
/// <param name="Study">The study that was done; null where no log was given.</param>
public sealed record StandingDocument(
    string Exam,
    string Candidate,
    string AsOf,
    int EvidenceItems,
    SetAsideFields SetAside,
    ImmutableArray<string> Notes,
    ImmutableArray<TopicStandingFields> Topics,
    ImmutableArray<SectionStandingFields> Sections,
    BasisFields Basis,
    StudyFields? Study)
{
    /// <summary>The document of a standing.</summary>
    public static StandingDocument Of(string candidate, CandidateStanding standing, StandingBasis basis, StudyReport? study)
    {
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentNullException.ThrowIfNull(basis);
        return new(
            standing.Exam.Name,
            candidate,
            LocalDatePattern.Iso.Format(standing.AsOf),
            standing.EvidenceItems,
            new SetAsideFields(standing.Taking.Rapid, standing.Taking.RapidBelow, standing.Taking.NotReached),
            [.. standing.Taking.Notes],
            [.. standing.Topics.Select(TopicStandingFields.Of)],
            [.. standing.Sections.Select(SectionStandingFields.Of)],
            BasisFields.Of(basis, standing),
            StudyFields.Of(study, standing.Exam));
    }
}
