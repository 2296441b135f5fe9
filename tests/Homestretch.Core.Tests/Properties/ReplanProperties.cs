using System.Collections.Immutable;

using CsCheck;

using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Replanning;
using Homestretch.Core.Standing;
using Homestretch.Core.Tests.Planning;
using Homestretch.Core.Tests.Planning.Replanning;

using NodaTime;

namespace Homestretch.Core.Tests.Properties;

public class ReplanProperties
{
    private static readonly Gen<WeeklyWindow[]> Windows = PlanProperties.Windows.Array[1, 8];

    private static readonly Gen<Week> Weeks =
        from c in Generators.Cases
        from windows in Windows
        from busy in PlanProperties.Busy.Array[0, 6]
        from days in Gen.Int[4, 24]
        from cap in Gen.Int[60, 300]
        select new Week(
            StandingCalculator.Calculate(c.Exam, Generators.Attempts(c.Counts), SampleExams.Today),
            Generators.Attempts(c.Counts),
            new FreeTime(PlannerTests.Zone, [.. windows], [], [], cap),
            busy,
            PlannerTests.From.Date.PlusDays(days));

    private static readonly Gen<Later> Laters =
        from hours in Gen.Int[0, 24 * 8]
        from done in Gen.Int[0, 3].Array[60]
        from quiz in Gen.Select(Gen.Int[0, 20], Gen.Int[0, 1000]).Array[0, 3]
        from newWindows in Gen.Frequency((2, Gen.Const((WeeklyWindow[]?)null)), (1, Windows.Select(w => (WeeklyWindow[]?)w)))
        from newBusy in PlanProperties.Busy.Array[0, 4]
        from examShift in Gen.Frequency((3, Gen.Const(0)), (1, Gen.Int[-6, 8]))
        from cost in Gen.Double[0, 0.03]
        select new Later(hours, done, quiz, newWindows, newBusy, examShift, cost);

    [Fact]
    public void Where_nothing_has_changed_nothing_changes()
        => Gen.Select(Weeks, Gen.Double[0.001, 0.05]).Sample(
            (week, cost) =>
            {
                StudyPlan plan = week.Plan();
                StudyPlan again = Replanner.Plan(week.Standing, week.Free, week.Busy, PlannerTests.From, week.ExamDay, EarlierPlans.Of(plan, week.Standing), cost);

                Assert.Equal(plan.Blocks.Select(Told), again.Blocks.Select(Told));
                Assert.Empty(again.Revision!.Changes);
                Assert.Empty(again.Revision.Earlier);
                Assert.Equal((plan.Blocks.Length, 0), (again.Revision.Kept, again.Revision.Moved));
                Assert.Equal(plan.LightFrom, again.LightFrom);
            },
            iter: 40);

    [Fact]
    public void Done_blocks_are_never_moved_nor_planned_again()
        => Gen.Select(Weeks, Laters).Sample(
            (week, later) =>
            {
                StudyPlan plan = week.Plan();
                (StudyPlan next, StudySession[] sessions) = Next(week, plan, later, later.Cost);
                HashSet<string?> done = [.. sessions.Select(s => s.Block)];

                Assert.DoesNotContain(next.Blocks, b => done.Contains(b.Id) || b.Start.ToInstant() < next.From.ToInstant());
                EarlierBlock[] told = [.. next.Revision!.Earlier.Where(b => b.Fate == BlockFate.Done)];
                Assert.Superset(done, told.Select(b => (string?)b.Id).ToHashSet());
                Assert.All(told, t => Assert.Contains(plan.Blocks, b => b.Id == t.Id && b.Start.ToInstant() == t.Time.Start && b.End.ToInstant() == t.Time.End && b.Topic.Name == t.Topic));

                // Every block of the old plan is either in the new one under its name or accounted for, once.
                string[] all = [.. next.Blocks.Select(b => b.Id), .. next.Revision.Earlier.Select(b => b.Id)];
                Assert.Equal(all.Length, all.Distinct().Count());
                Assert.Superset(plan.Blocks.Select(b => b.Id).ToHashSet(), all.ToHashSet());
            },
            iter: 40);

    [Fact]
    public void A_changed_plan_keeps_the_rules()
        => Gen.Select(Weeks, Laters).Sample(
            (week, later) =>
            {
                StudyPlan next = Next(week, week.Plan(), later, later.Cost).Plan;
                FreeTime free = week.FreeAt(later);
                PlanProperties.CheckRules(next, free, week.BusyAt(later), next.ExamDay);

                // Blocks of one topic stand side by side in their window.
                Dictionary<Instant, int> windows = PlanProperties.WindowsOf(next, free, week.BusyAt(later), next.ExamDay);
                Assert.All(next.Blocks.GroupBy(b => windows[b.Start.ToInstant()]), w =>
                {
                    string[] topics = [.. w.Select(b => b.Topic.Name)];
                    Assert.Equal(topics.Distinct().Count(), topics.Where((t, i) => i == 0 || topics[i - 1] != t).Count());
                });
            },
            iter: 50);

    [Fact]
    public void A_higher_cost_never_moves_more_and_the_pass_chance_is_never_below_keeping_what_can_be_kept()
        => Gen.Select(Weeks, Laters).Sample(
            (week, later) =>
            {
                StudyPlan plan = week.Plan();
                int moved = int.MaxValue;
                foreach (double cost in new[] { 0, 0.0004, 0.002, 0.005, 0.02, 0.1, 1 })
                {
                    StudyPlan next = Next(week, plan, later, cost).Plan;
                    double passChance = next.Outcome(Policy.Optimised).PassChance;
                    Assert.True(next.Revision!.Moved <= moved, $"{next.Revision.Moved} moved at {cost}, {moved} before");
                    Assert.True(passChance >= next.Revision.KeptPassChance + (cost * next.Revision.Moved) - 1e-9, $"{passChance} < {next.Revision.KeptPassChance} + {cost} x {next.Revision.Moved}");
                    Assert.Equal(next.Revision.Moved, next.Revision.Changes.Count(c => c.CouldStay));
                    moved = next.Revision.Moved;
                }

                Assert.Equal(0, moved);
            },
            iter: 12);

    private static (string, Instant, Instant, string, BlockPurpose) Told(StudyBlock block) => (block.Id, block.Start.ToInstant(), block.End.ToInstant(), block.Topic.Name, block.Purpose);

    // Of the blocks whose time has passed some are done; a quiz or two; perhaps other free time, busy times and another day.
    private static (StudyPlan Plan, StudySession[] Sessions) Next(Week week, StudyPlan plan, Later later, double cost)
    {
        ZonedDateTime from = PlannerTests.From.PlusHours(later.Hours);
        LocalDate examDay = week.ExamAt(later);
        StudySession[] sessions = [.. plan.Blocks
            .Where((b, i) => b.Start.ToInstant() < from.ToInstant() && later.Done[i % later.Done.Length] > 0)
            .Select(b => new StudySession("Someone", b.Topic.Name, b.Start.Date, b.Minutes, b.Purpose.Kind()) { Block = b.Id })];
        ImmutableArray<Attempt> attempts = [.. week.Attempts, .. later.Quiz.Select((q, i) => new Attempt(
            "Someone",
            $"quiz {i}",
            AttemptKind.Quiz,
            from.Date,
            [TopicCount.Exact(week.Standing.Exam.Topics[q.Seed % week.Standing.Topics.Length].Name, Math.Min(q.Correct, 10), 10)]))];
        CandidateStanding standing = StandingCalculator.Calculate(week.Standing.Exam, attempts, from.Date, study: new StudyHistory(week.Standing.Exam, [.. sessions]));
        return (Replanner.Plan(standing, week.FreeAt(later), week.BusyAt(later), from, examDay, EarlierPlans.Of(plan, week.Standing), cost), sessions);
    }

    private sealed record Week(CandidateStanding Standing, ImmutableArray<Attempt> Attempts, FreeTime Free, Interval[] Busy, LocalDate ExamDay)
    {
        public StudyPlan Plan() => Planner.Plan(Standing, Free, Busy, PlannerTests.From, ExamDay);

        public FreeTime FreeAt(Later later) => later.Windows is { } windows ? new FreeTime(Free.Zone, [.. windows], [], [], Free.DailyCapMinutes) : Free;

        public Interval[] BusyAt(Later later) => [.. Busy, .. later.Busy];

        public LocalDate ExamAt(Later later) => ExamDay.PlusDays(later.ExamShift);
    }

    private sealed record Later(int Hours, int[] Done, (int Correct, int Seed)[] Quiz, WeeklyWindow[]? Windows, Interval[] Busy, int ExamShift, double Cost);
}
