using System.Collections.Immutable;

using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Replanning;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Files.Tests.Plans;

/// <summary>A plan that goes on from <see cref="SampleReports.ThreeWeeks"/>: a week later with every third block missed, one evening busy, the exam two days earlier.</summary>
internal static class ReplannedReports
{
    public static CandidateReport AWeekLater { get; } = Make();

    private static CandidateReport Make()
    {
        CandidateReport first = SampleReports.ThreeWeeks;
        StudyPlan plan = first.Plan!;
        ZonedDateTime from = plan.From.PlusHours(7 * 24);
        StudySession[] sessions = [.. plan.Blocks
            .Where((b, i) => b.Start.ToInstant() < from.ToInstant() && i % 3 > 0)
            .Select(b => new StudySession(first.Candidate, b.Topic.Name, b.Start.Date, b.Minutes, b.Purpose.Kind()) { Block = b.Id })];
        CandidateStanding standing = first.Basis.Standing(
            [new Attempt(first.Candidate, "Diagnostic", AttemptKind.Diagnostic, plan.From.Date.PlusDays(-3), [.. first.Standing.Topics.Where(t => t.Observed is not null).Select(t => TopicCount.Exact(t.Topic.Name, t.Observed!.Value.Correct, t.Observed.Value.Items))])],
            from.Date,
            new StudyHistory(first.Standing.Exam, [.. sessions]));
        EarlierPlan earlier = new(
            plan.From,
            plan.ExamDay,
            plan.LightFrom,
            plan.CalendarDay,
            [.. plan.Blocks.Select(b => new EarlierBlock(b.Id, new Interval(b.Start.ToInstant(), b.End.ToInstant()), b.Topic.Name, b.Purpose, BlockFate.Planned))],
            first.Standing.Topics.ToImmutableDictionary(t => t.Topic.Name, t => t.Level.Mean));
        Instant evening = plan.Zone.AtStartOfDay(from.Date.PlusDays(1)).ToInstant();
        StudyPlan next = Replanner.Plan(standing, SampleReports.Evenings(100), [new Interval(evening, evening + Duration.FromDays(1))], from, plan.ExamDay.PlusDays(-2), earlier);
        return first with { Standing = standing, Forecast = ForecastCalculator.Calculate(standing), Worth = WorthCalculator.NextMinutes(standing), Plan = next };
    }
}
