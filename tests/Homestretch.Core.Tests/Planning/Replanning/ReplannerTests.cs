using System.Collections.Immutable;

using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Replanning;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Tests.Planning.Replanning;

public class ReplannerTests
{
    private static readonly CandidateStanding Standing = PlannerTests.StandardPicture();
    private static readonly StudyPlan First = Planner.Plan(Standing, PlannerTests.Evenings(), [], PlannerTests.From, PlannerTests.ExamDay);

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public void A_week_done_as_planned_changes_nothing_that_is_to_come()
    {
        StudyPlan next = AWeekLater(done: _ => true);

        Assert.Equal(First.Blocks.Where(b => b.Start.ToInstant() >= next.From.ToInstant()).Select(b => (b.Id, b.Start.ToInstant())), next.Blocks.Select(b => (b.Id, b.Start.ToInstant())));
        Assert.Equal(0, next.Revision!.Moved);
        Assert.All(next.Revision.Changes, c => Assert.Equal(RevisionKind.Repurposed, c.Kind));
        Assert.All(next.Revision.Earlier, b => Assert.Equal((BlockFate.Done, true), (b.Fate, b.DoneOn == b.Time.Start.InZone(PlannerTests.Zone).Date)));
        Assert.Equal(First.Blocks.Length, next.Blocks.Length + next.Revision.Earlier.Length);
    }

    [Fact]
    public void A_missed_week_is_made_up_where_that_is_worth_it_and_every_missed_block_is_accounted_for()
    {
        StudyPlan next = AWeekLater(done: _ => false);

        BlockRevision[] missed = [.. next.Revision!.Changes.Where(c => c.Before?.Fate == BlockFate.Missed)];
        Assert.Equal(First.Blocks.Count(b => b.Start.ToInstant() < next.From.ToInstant()), missed.Length);
        Assert.All(missed, c => Assert.Contains("missed on ", c.Reason, StringComparison.Ordinal));
        Assert.All(missed.Where(c => c.Kind == RevisionKind.MadeUp), c =>
        {
            Assert.Equal((c.Before!.Id, c.Before.Topic), (c.After!.Id, c.After.Topic.Name));
            Assert.True(c.Gain > 0);
        });
        Assert.Equal(missed.Where(c => c.After is null).Select(c => c.Before!.Id).Order(), next.Revision.Earlier.Where(b => b.Fate == BlockFate.Missed).Select(b => b.Id).Order());
    }

    [Fact]
    public void A_busy_evening_moves_its_blocks_and_says_why()
    {
        LocalDate evening = First.Blocks.First(b => b.Start.Date > PlannerTests.From.Date.PlusDays(1)).Start.Date;
        Interval busy = new(PlannerTests.Zone.AtStartOfDay(evening).ToInstant(), PlannerTests.Zone.AtStartOfDay(evening.PlusDays(1)).ToInstant());

        StudyPlan next = Replan(Standing, busy: [busy]);

        string[] hit = [.. First.Blocks.Where(b => b.Start.Date == evening).Select(b => b.Id)];
        BlockRevision[] forced = [.. next.Revision!.Changes.Where(c => c.Before is not null && hit.Contains(c.Before.Id))];
        Assert.Equal(hit.Order(), forced.Select(c => c.Before!.Id).Order());
        Assert.All(forced, c => Assert.Equal(("you are busy then", false), (c.Reason, c.CouldStay)));
        Assert.DoesNotContain(next.Blocks, b => b.Start.Date == evening);
    }

    [Theory]
    [InlineData(-4, "the exam is on Saturday 12 December now")]
    [InlineData(-4, "the last days before the exam are for light review")]
    public void An_earlier_exam_drops_what_no_longer_fits(int days, string reason)
    {
        StudyPlan next = Replan(Standing, examDay: PlannerTests.ExamDay.PlusDays(days));

        Assert.Contains(next.Revision!.Changes, c => c.Reason == reason);
        Assert.Equal(PlannerTests.ExamDay, next.CalendarDay);
        Assert.Equal(PlannerTests.ExamDay.PlusDays(days - 2), next.LightFrom);
    }

    [Fact]
    public void A_later_exam_adds_blocks_and_keeps_the_others()
    {
        StudyPlan next = Replan(Standing, examDay: PlannerTests.ExamDay.PlusDays(7));

        Assert.Equal((First.Blocks.Length, 0), (next.Revision!.Kept, next.Revision.Moved));
        Assert.Contains(next.Revision.Changes, c => c.Kind == RevisionKind.Added && c.Gain > 0);
        Assert.True(next.Outcome(Policy.Optimised).PassChance > next.Revision.KeptPassChance);
        string[] fresh = [.. next.Blocks.Select(b => b.Id).Except(First.Blocks.Select(b => b.Id))];
        Assert.NotEmpty(fresh);
        Assert.Equal(next.Blocks.Length, next.Blocks.Select(b => b.Id).Distinct().Count());
    }

    [Fact]
    public void A_quiz_that_shows_a_topic_strong_gives_its_time_to_another_and_says_so()
    {
        ExamTopicBlocks heaviest = First.Blocks.GroupBy(b => b.Topic.Name).Select(g => new ExamTopicBlocks(g.Key, g.Count())).MaxBy(g => g.Blocks)!;
        ImmutableArray<Attempt> tests = [.. Answers, new Attempt("Someone", "quiz", AttemptKind.Quiz, SampleExams.Today, [TopicCount.Exact(heaviest.Topic, 60, 60)])];
        CandidateStanding stronger = StandingCalculator.Calculate(Standing.Exam, tests, SampleExams.Today);

        StudyPlan settled = Replan(stronger);
        StudyPlan next = Replan(stronger, cost: 0);

        // A pass is nearly sure either way: half a point a block is not to be had.
        Assert.Equal(0, settled.Revision!.Moved);
        Assert.InRange(settled.Revision.FreshPassChance - settled.Revision.KeptPassChance, 0, 0.005);

        Assert.True(next.Revision!.Moved > 0);
        Assert.Contains(next.Revision.Changes, c => c.CouldStay && c.Before!.Topic == heaviest.Topic && c.Reason.Contains($"{heaviest.Topic} now stands at about ", StringComparison.Ordinal));
        Assert.True(next.Blocks.Count(b => b.Topic.Name == heaviest.Topic) < heaviest.Blocks);
    }

    [Fact]
    public void A_line_of_plans_keeps_its_names_its_calendar_and_what_became_of_every_block()
    {
        StudyPlan second = AWeekLater(done: i => i % 3 > 0);
        StudyPlan third = Replanner.Plan(StandingLater(i => i % 3 > 0), PlannerTests.Evenings(), [], second.From, PlannerTests.ExamDay.PlusDays(3), EarlierPlans.Of(second, Standing), cancellation: Cancellation);

        Assert.Equal(PlannerTests.ExamDay, third.CalendarDay);
        HashSet<string> all = [.. third.Blocks.Select(b => b.Id), .. third.Revision!.Earlier.Select(b => b.Id)];
        Assert.Superset(First.Blocks.Select(b => b.Id).ToHashSet(), all);
        Assert.Superset(second.Blocks.Select(b => b.Id).ToHashSet(), all);
        Assert.Equal(third.Blocks.Length + third.Revision.Earlier.Length, all.Count);
        Assert.All(second.Revision!.Earlier, b => Assert.Contains(third.Revision.Earlier, e => e == b));
    }

    [Fact]
    public void A_negative_cost_is_refused() => Assert.Throws<ArgumentOutOfRangeException>(() => Replan(Standing, cost: -0.1));

    private static ImmutableArray<Attempt> Answers => SampleExams.Diagnostic([.. Standing.Topics.Select(t => (t.Topic.Name, t.Observed!.Value.Correct, t.Observed.Value.Items))]);

    private static StudyPlan Replan(CandidateStanding standing, Interval[]? busy = null, LocalDate? examDay = null, double cost = Replanner.DefaultMoveCost)
        => Replanner.Plan(standing, PlannerTests.Evenings(), busy ?? [], PlannerTests.From, examDay ?? PlannerTests.ExamDay, EarlierPlans.Of(First, Standing), cost, cancellation: Cancellation);

    private static StudyPlan AWeekLater(Func<int, bool> done)
        => Replanner.Plan(StandingLater(done), PlannerTests.Evenings(), [], PlannerTests.From.PlusHours(24 * 7), PlannerTests.ExamDay, EarlierPlans.Of(First, Standing), cancellation: Cancellation);

    private static CandidateStanding StandingLater(Func<int, bool> done)
    {
        ZonedDateTime from = PlannerTests.From.PlusHours(24 * 7);
        StudySession[] sessions = [.. First.Blocks
            .Where((b, i) => b.Start.ToInstant() < from.ToInstant() && done(i))
            .Select(b => new StudySession("Someone", b.Topic.Name, b.Start.Date, b.Minutes, b.Purpose.Kind()) { Block = b.Id })];
        return StandingCalculator.Calculate(Standing.Exam, Answers, from.Date, study: new StudyHistory(Standing.Exam, [.. sessions]));
    }

    private sealed record ExamTopicBlocks(string Topic, int Blocks);
}
