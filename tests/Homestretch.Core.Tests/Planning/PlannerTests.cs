using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Tests.Planning;

public class PlannerTests
{
    internal static readonly DateTimeZone Zone = DateTimeZoneProviders.Tzdb["Europe/London"];
    internal static readonly ZonedDateTime From = Zone.AtStrictly(new LocalDateTime(2026, 11, 25, 8, 0));
    internal static readonly LocalDate ExamDay = new(2026, 12, 16);

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    /// <summary>Two hours every weekday evening and five on Saturday.</summary>
    internal static FreeTime Evenings(int dailyCap = FreeTime.DefaultDailyCapMinutes)
        => new(
            Zone,
            [
                .. Enumerable.Range(1, 5).Select(d => new WeeklyWindow((IsoDayOfWeek)d, new LocalTime(18, 30), new LocalTime(20, 30))),
                new WeeklyWindow(IsoDayOfWeek.Saturday, new LocalTime(9, 0), new LocalTime(14, 0)),
            ],
            [],
            [],
            dailyCap);

    /// <summary>Borderline and weak topics of each weight, a strong one of each as well.</summary>
    internal static CandidateStanding StandardPicture()
    {
        (string Name, int Items, double Share)[] topics =
        [
            ("Borderline heavy", 24, 0.60), ("Borderline moderate", 14, 0.60), ("Borderline light", 7, 0.60),
            ("Weak heavy", 24, 0.36), ("Weak moderate", 14, 0.36), ("Weak light", 7, 0.30),
            ("Strong heavy", 24, 0.93), ("Strong moderate", 14, 0.93), ("Strong light", 7, 1),
        ];
        Exam exam = SampleExams.OneSection(new PercentCut(65), [.. topics.Select(t => SampleExams.Topic(t.Name, t.Items))]);
        ImmutableArray<Attempt> attempts = SampleExams.Diagnostic([.. topics.Select(t => (t.Name, (int)Math.Round(t.Share * 30), 30))]);
        return StandingCalculator.Calculate(exam, attempts, SampleExams.Today);
    }

    [Fact]
    public void The_standard_picture_has_the_nine_kinds_of_topics()
    {
        foreach (TopicStanding topic in StandardPicture().Topics)
        {
            Assert.Equal(topic.Topic.Name, $"{topic.Level.Band} {topic.Topic.WeightClass.ToString().ToLowerInvariant()}");
        }
    }

    [Fact]
    public void The_practice_order_is_the_practitioners()
    {
        // Common practice, no source: borderline-heavy, borderline-moderate, weak-heavy, then, if time allows, weak-moderate.
        CandidateStanding standing = StandardPicture();
        string[] order = [.. PracticeOrder.Rank(standing).Select(t => standing.Topics[t].Topic.Name)];
        Assert.Equal(["Borderline heavy", "Borderline moderate", "Weak heavy", "Weak moderate"], order[..4]);
        Assert.Equal(["Strong heavy", "Strong moderate", "Strong light", "Weak light"], order[5..]);
    }

    [Fact]
    public void The_optimised_policy_soon_takes_up_what_the_practice_order_starts_with()
    {
        CandidateStanding standing = StandardPicture();
        StudyPlan optimised = Planner.Plan(standing, Evenings(), [], From, ExamDay, Policy.Optimised, cancellation: Cancellation);
        StudyPlan practice = Planner.Plan(standing, Evenings(), [], From, ExamDay, Policy.PracticeOrder, cancellation: Cancellation);
        Assert.Equal("Borderline heavy", practice.Blocks[0].Topic.Name);
        Assert.Contains("Borderline heavy", optimised.Blocks.Take(2).Select(b => b.Topic.Name));
        Assert.True(optimised.Outcome(Policy.Optimised).PassChance > optimised.Outcome(Policy.PracticeOrder).PassChance);
        Assert.True(optimised.Outcome(Policy.PracticeOrder).PassChance > optimised.Outcome(Policy.None).PassChance);
    }

    [Fact]
    public void Minutes_are_those_of_the_blocks_and_every_topic_is_planned_or_left_alone()
    {
        StudyPlan plan = Planner.Plan(StandardPicture(), Evenings(), [], From, ExamDay, cancellation: Cancellation);
        Assert.All(plan.Minutes, m => Assert.Equal(m.Minutes, plan.Blocks.Where(b => b.Topic == m.Topic).Sum(b => b.Minutes)));
        Assert.Equal(plan.Outcome(Policy.Optimised).Minutes, plan.Blocks.Sum(b => b.Minutes));
        Assert.Equal(9, plan.Minutes.Length + plan.LeftAlone.Length);
        Assert.Empty(plan.Minutes.Select(m => m.Topic.Name).Intersect(plan.LeftAlone.Select(l => l.Topic.Name)));
        Assert.Equal(Enumerable.Range(1, plan.Minutes.Length), plan.Minutes.Select(m => m.Order));
        Assert.Equal(plan.Blocks.Length, plan.Blocks.Select(b => b.Id).Distinct().Count());
        Assert.All(plan.Blocks, b => Assert.EndsWith(".", b.Reason, StringComparison.Ordinal));
    }

    [Fact]
    public void No_free_time_gives_no_blocks_and_says_so()
    {
        StudyPlan plan = Planner.Plan(StandardPicture(), new FreeTime(Zone, [], [], []), [], From, ExamDay, cancellation: Cancellation);
        Assert.Empty(plan.Blocks);
        Assert.NotEmpty(plan.Notes);
        Assert.Equal(9, plan.LeftAlone.Length);
        Assert.Single(plan.Policies.Select(p => p.PassChance).Distinct());
    }

    [Fact]
    public void An_exam_tomorrow_morning_gets_light_review_only()
    {
        FreeTime free = new(Zone, [new WeeklyWindow(IsoDayOfWeek.Wednesday, new LocalTime(9, 0), new LocalTime(22, 0)), new WeeklyWindow(IsoDayOfWeek.Thursday, new LocalTime(5, 0), new LocalTime(8, 0))], [], []);
        StudyPlan plan = Planner.Plan(StandardPicture(), free, [], From, new LocalDate(2026, 11, 26), cancellation: Cancellation);
        Assert.InRange(plan.Blocks.Length, 1, 3);
        Assert.All(plan.Blocks, b => Assert.Equal(BlockPurpose.Review, b.Purpose));
        Assert.All(plan.Blocks, b => Assert.True(b.End.LocalDateTime <= new LocalDateTime(2026, 11, 25, 20, 0)));
    }

    [Fact]
    public void More_time_than_can_be_used_is_left_free()
    {
        CandidateStanding strong = StandingCalculator.Calculate(
            SampleExams.OneSection(new PercentCut(50), SampleExams.Topic("A", 60), SampleExams.Topic("B", 60)),
            SampleExams.Diagnostic(("A", 38, 40), ("B", 37, 40)),
            SampleExams.Today);
        FreeTime free = new(Zone, [.. Enumerable.Range(1, 7).Select(d => new WeeklyWindow((IsoDayOfWeek)d, new LocalTime(8, 0), new LocalTime(20, 0)))], [], []);
        StudyPlan plan = Planner.Plan(strong, free, [], From, new LocalDate(2027, 2, 25), cancellation: Cancellation);
        Assert.True(plan.Blocks.Sum(b => b.Minutes) < plan.FreeMinutes / 2);
        Assert.Contains(plan.Notes, n => n.Contains("Rest", StringComparison.Ordinal));
    }

    [Fact]
    public void An_exam_in_the_past_gives_an_empty_plan()
        => Assert.Empty(Planner.Plan(StandardPicture(), Evenings(), [], From, new LocalDate(2026, 11, 20), cancellation: Cancellation).Blocks);

    [Fact]
    public void Names_that_differ_in_punctuation_only_keep_their_blocks_apart()
    {
        Exam exam = SampleExams.OneSection(new PercentCut(60), SampleExams.Topic("Loans, insurance", 20), SampleExams.Topic("Loans & insurance", 20));
        CandidateStanding standing = StandingCalculator.Calculate(exam, SampleExams.Diagnostic(("Loans, insurance", 5, 10), ("Loans & insurance", 5, 10)), SampleExams.Today);
        StudyPlan plan = Planner.Plan(standing, Evenings(), [], From, ExamDay, cancellation: Cancellation);
        Assert.Equal(plan.Blocks.Length, plan.Blocks.Select(b => b.Id).Distinct().Count());
        Assert.Equal(2, plan.Minutes.Length);
    }
}
