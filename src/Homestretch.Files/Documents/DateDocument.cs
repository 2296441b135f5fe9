using System.Collections.Immutable;

using Homestretch.Core.Deciding;
using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Files.Documents;

/// <summary>Exam dates compared.</summary>
/// <param name="Exam">Name of the exam.</param>
/// <param name="Candidate">The person's name as the evidence gives it.</param>
/// <param name="Target">The pass chance that is good enough, 0 to 1.</param>
/// <param name="EarliestRetake">First day the owner's rules allow after earlier official attempts; null where there were none or no rule is published.</param>
/// <param name="Best">The date the figures speak for; null where no date is allowed.</param>
/// <param name="Reason">Why, in a sentence.</param>
/// <param name="Dates">In order.</param>
/// <param name="Basis">The assumptions and calibrated items that the figures rest on.</param>
public sealed record DateDocument(string Exam, string Candidate, double Target, string? EarliestRetake, string? Best, string Reason, ImmutableArray<DateOptionFields> Dates, BasisFields Basis)
{
    /// <summary>The document of a comparison.</summary>
    public static DateDocument Of(string candidate, CandidateStanding standing, StandingBasis basis, DateAdvice advice)
    {
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentNullException.ThrowIfNull(basis);
        ArgumentNullException.ThrowIfNull(advice);
        return new(
            standing.Exam.Name,
            candidate,
            advice.Terms.Target,
            advice.EarliestRetake is { } earliest ? Iso(earliest) : null,
            advice.Best is { } best ? Iso(best.Date) : null,
            advice.Reason,
            [.. advice.Options.Select(o => new DateOptionFields(Iso(o.Date), o.Booked, o.PassChance, o.NoStudy, o.StudyMinutes, o.ExpectedFees is { } fees ? Math.Round(fees, 2) : null, o.Barred))],
            BasisFields.Of(basis, standing));
    }

    private static string Iso(LocalDate date) => LocalDatePattern.Iso.Format(date);
}
