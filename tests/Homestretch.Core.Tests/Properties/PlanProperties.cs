using System.Collections.Immutable;

using CsCheck;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;
using Homestretch.Core.Tests.Planning;

using NodaTime;

namespace Homestretch.Core.Tests.Properties;

public class PlanProperties
{
    internal static readonly Gen<WeeklyWindow> Windows =
        from day in Gen.Int[1, 7]
        from start in Gen.Int[24, 80]
        from length in Gen.Int[2, 14]
        select new WeeklyWindow((IsoDayOfWeek)day, LocalTime.FromMinutesSinceMidnight(start * 15), LocalTime.FromMinutesSinceMidnight(Math.Min(95, start + length) * 15));

    internal static readonly Gen<Interval> Busy =
        from hours in Gen.Int[0, 24 * 20]
        from minutes in Gen.Int[10, 400]
        select new Interval(PlannerTests.From.ToInstant() + Duration.FromHours(hours), PlannerTests.From.ToInstant() + Duration.FromHours(hours) + Duration.FromMinutes(minutes));

    private static readonly Gen<(CandidateStanding Standing, FreeTime Free, Interval[] Busy, LocalDate ExamDay, int Seed)> Cases =
        from c in Generators.Cases
        from windows in Windows.Array[0, 10]
        from busy in Busy.Array[0, 8]
        from days in Gen.Int[0, 24]
        from cap in Gen.Int[30, 300]
        from seed in Gen.Int[1, 1000]
        select (
            StandingCalculator.Calculate(c.Exam, Generators.Attempts(c.Counts), SampleExams.Today),
            new FreeTime(PlannerTests.Zone, [.. windows], [], [], cap),
            busy,
            PlannerTests.From.Date.PlusDays(days),
            seed);

    [Fact]
    public void Every_plan_keeps_the_rules_of_a_humane_schedule()
        => Cases.Sample(
            c =>
            {
                foreach (Policy policy in Enum.GetValues<Policy>())
                {
                    CheckRules(Planner.Plan(c.Standing, c.Free, c.Busy, PlannerTests.From, c.ExamDay, policy), c.Free, c.Busy, c.ExamDay);
                }
            },
            iter: 250);

    [Fact]
    public void The_optimised_plan_is_never_below_the_practice_order_nor_that_below_nothing()
        => Cases.Sample(
            c =>
            {
                StudyPlan plan = Planner.Plan(c.Standing, c.Free, c.Busy, PlannerTests.From, c.ExamDay);
                double[] chances = [.. plan.Policies.Select(p => p.PassChance)];
                Assert.True(chances[2] >= chances[1], $"{chances[2]} < {chances[1]}");
                Assert.True(chances[1] >= chances[0] - 1e-6, $"{chances[1]} < {chances[0]}");
            },
            iter: 250);

    [Fact]
    public void More_study_time_never_lowers_the_optimised_pass_chance()
        => Gen.Select(Generators.Cases, Gen.Double[0.2, 0.9]).Sample(
            (c, pieceHours) =>
            {
                CandidateStanding standing = StandingCalculator.Calculate(c.Exam, Generators.Attempts(c.Counts), SampleExams.Today);
                QuickScoreModel quick = new(c.Exam);
                quick.Load(standing.Posterior);
                ScoreModel full = new(c.Exam, standing.Posterior);
                double before = 0;
                for (int pieces = 0; pieces <= 12; pieces += 3)
                {
                    int[] counts = Allocator.Optimise(c.Exam, quick, full.EffortNow, pieceHours, pieces).Counts(c.Exam.Topics.Length);
                    double after = full.PassChance([.. counts.Select((n, t) => n * pieceHours * full.BreadthFactors[t])]);
                    Assert.True(after >= before - 1e-9, $"{pieces} pieces: {before} fell to {after}");
                    before = after;
                }
            },
            iter: 150);

    [Fact]
    public void Longer_windows_never_lower_the_pass_chance_of_the_plan_until_it_is_as_good_as_certain()
        => Generators.Cases.Sample(
            c =>
            {
                CandidateStanding standing = StandingCalculator.Calculate(c.Exam, Generators.Attempts(c.Counts), SampleExams.Today);
                double before = 0;
                foreach (int minutes in new[] { 50, 60, 75, 90, 110, 120, 150, 240 })
                {
                    LocalTime end = new LocalTime(17, 0).PlusMinutes(minutes);
                    FreeTime free = new(PlannerTests.Zone, [.. Enumerable.Range(1, 6).Select(d => new WeeklyWindow((IsoDayOfWeek)d, new LocalTime(17, 0), end))], [], []);
                    double after = Planner.Plan(standing, free, [], PlannerTests.From, PlannerTests.ExamDay).Outcome(Policy.Optimised).PassChance;

                    // Where a pass is out of reach either way, cutting the time into other blocks can cost a tenth of a point.
                    double tolerance = before < 0.01 ? 1e-3 : 1e-5;
                    Assert.True(after >= Math.Min(before, Allocator.SurePass) - tolerance, $"{minutes} minutes: {before} fell to {after}");
                    before = after;
                }
            },
            iter: 60);

    [Fact]
    public void The_order_of_topics_in_the_file_does_not_matter_to_the_plan()
        => Cases.Sample(
            c =>
            {
                Exam other = Generators.Reordered(c.Standing.Exam, c.Seed);
                ImmutableArray<Homestretch.Core.Evidence.Attempt> evidence = Generators.Attempts(c.Standing.Topics.Select(t => (t.Topic.Name, t.Observed?.Correct ?? 0, t.Observed?.Items ?? 0)));
                CandidateStanding reordered = StandingCalculator.Calculate(other, evidence, SampleExams.Today);
                StudyPlan plan = Planner.Plan(c.Standing, c.Free, c.Busy, PlannerTests.From, c.ExamDay);
                StudyPlan twin = Planner.Plan(reordered, c.Free, c.Busy, PlannerTests.From, c.ExamDay);
                Assert.Equal(plan.Blocks.Select(b => (b.Start.ToInstant(), b.Id, b.Purpose)), twin.Blocks.Select(b => (b.Start.ToInstant(), b.Id, b.Purpose)));
            },
            iter: 100);

    internal static void CheckRules(StudyPlan plan, FreeTime free, Interval[] busy, LocalDate examDay)
    {
        for (int i = 0; i < plan.Blocks.Length; i++)
        {
            StudyBlock block = plan.Blocks[i];
            Interval time = new(block.Start.ToInstant(), block.End.ToInstant());
            Assert.InRange(block.Minutes, 25, 50);
            Assert.True(block.Start.Date < examDay);
            Assert.True(time.Start >= plan.From.ToInstant());
            Assert.True(i == 0 || plan.Blocks[i - 1].End.ToInstant() <= time.Start);
            Assert.DoesNotContain(busy, b => b.Start < time.End && time.Start < b.End);
            Assert.Contains(free.Weekly, w => w.Day == block.Start.DayOfWeek);
        }

        Assert.All(plan.Blocks.GroupBy(b => b.Start.Date), day => Assert.True(day.Sum(b => b.Minutes) <= free.DailyCapMinutes));
        foreach (IGrouping<string, StudyBlock> topic in plan.Blocks.GroupBy(b => b.Topic.Name))
        {
            // Learn, practise, quiz, review: never backwards.
            Assert.Equal(topic.Select(b => b.Purpose).Order(), topic.Select(b => b.Purpose));
        }

        LocalDate eve = examDay.PlusDays(-1);
        Assert.All(plan.Blocks.Where(b => b.Start.Date == eve), b => Assert.Equal(BlockPurpose.Review, b.Purpose));

        Dictionary<Instant, int> windows = WindowsOf(plan, free, busy, examDay);
        Assert.All(plan.Blocks.GroupBy(b => windows[b.Start.ToInstant()]), w => Assert.True(w.Select(b => b.Topic.Name).Distinct().Count() <= 2));
    }

    // The plan's own blocks must be slots that its free time can hold.
    internal static Dictionary<Instant, int> WindowsOf(StudyPlan plan, FreeTime free, Interval[] busy, LocalDate examDay)
        => SlotFinder.Find(free, busy, plan.From, examDay, plan.LightFrom, [.. plan.Blocks.Select(b => new Interval(b.Start.ToInstant(), b.End.ToInstant()))]).Slots.ToDictionary(s => s.Start, s => s.Window);
}
