using System.Collections.Immutable;

using Homestretch.Core.Deciding;
using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

namespace Homestretch.Files.Documents;

/// <summary>Hours a week compared.</summary>
/// <param name="Exam">Name of the exam.</param>
/// <param name="Candidate">The person's name as the evidence gives it.</param>
/// <param name="EnoughWeeklyMinutes">Fewest minutes a week of those compared that come within a point of the most.</param>
/// <param name="Reason">What the figures say, in a sentence.</param>
/// <param name="Hours">Fewest first.</param>
/// <param name="Basis">The assumptions and calibrated items that the figures rest on.</param>
public sealed record HoursDocument(string Exam, string Candidate, int EnoughWeeklyMinutes, string Reason, ImmutableArray<HoursOptionFields> Hours, BasisFields Basis)
{
    /// <summary>The document of a comparison.</summary>
    public static HoursDocument Of(string candidate, CandidateStanding standing, StandingBasis basis, HoursAdvice advice)
    {
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentNullException.ThrowIfNull(basis);
        ArgumentNullException.ThrowIfNull(advice);
        return new(
            standing.Exam.Name,
            candidate,
            advice.EnoughWeeklyMinutes,
            advice.Reason,
            [.. advice.Options.Select(o => new HoursOptionFields(o.WeeklyMinutes, o.Now, o.PassChance, o.StudyMinutes))],
            BasisFields.Of(basis, standing));
    }
}
