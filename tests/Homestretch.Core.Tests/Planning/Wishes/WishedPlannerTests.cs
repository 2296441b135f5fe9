using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Wishes;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Tests.Planning.Wishes;

public class WishedPlannerTests
{
    private static readonly CandidateStanding Standing = PlannerTests.StandardPicture();
    private static readonly CoachWishes None = new([], [], [], []);

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    public static TheoryData<Policy> Policies => [Policy.Optimised, Policy.PracticeOrder];

    [Theory]
    [MemberData(nameof(Policies))]
    public void Every_wish_is_obeyed_and_said_with_its_cost(Policy policy)
    {
        Instant saturday = At(new LocalDateTime(2026, 11, 28, 10, 5));

        StudyPlan plan = Plan(None with { Avoid = ["Borderline heavy"], Include = ["Strong light"], AtLeast = [new("Weak light", 150)], Pins = [new(saturday, "Weak heavy")] }, policy);

        Assert.DoesNotContain(plan.Blocks, b => b.Topic.Name == "Borderline heavy");
        Assert.Equal(
            [BlockPurpose.Learn, BlockPurpose.Quiz],
            plan.Blocks.Where(b => b.Topic.Name == "Strong light" && b.Purpose != BlockPurpose.Review).Select(b => b.Purpose).Where(p => p != BlockPurpose.Practise));
        Assert.InRange(plan.Blocks.Where(b => b.Topic.Name == "Weak light").Sum(b => b.Minutes), 150, int.MaxValue);
        Assert.Equal(("Weak heavy", 50), (plan.Blocks.Single(b => b.Start.ToInstant() == saturday).Topic.Name, plan.Blocks.Single(b => b.Start.ToInstant() == saturday).Minutes));

        // The heaviest borderline topic is the best use of time, so leaving it out must cost.
        Assert.InRange(plan.Wishes!.PassChance, 0.005, 0.5);
        Assert.Matches("They cost about [0-9]+ points? of pass chance\\.$", plan.Notes[0]);
        Assert.Equal(plan.Wishes.Sentence, plan.Notes[0]);
        Assert.Equal("Left out, as was asked.", plan.LeftAlone.Single(l => l.Topic.Name == "Borderline heavy").Reason);
        double without = Planner.Plan(Standing, PlannerTests.Evenings(), [], PlannerTests.From, PlannerTests.ExamDay, policy, cancellation: Cancellation).Outcome(policy).PassChance;
        Assert.Equal(without - plan.Outcome(policy).PassChance, plan.Wishes.PassChance, 1e-12);
    }

    [Fact]
    public void Wishes_that_the_plan_obeys_anyway_cost_next_to_nothing()
    {
        StudyPlan plan = Plan(None with { Include = ["Borderline heavy"], AtLeast = [new("Borderline heavy", 60)] });

        Assert.InRange(plan.Wishes!.PassChance, -0.005, 0.005);
        Assert.EndsWith("They cost next to nothing.", plan.Wishes.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Pinned_blocks_near_each_other_are_shorter()
    {
        Instant first = At(new LocalDateTime(2026, 11, 28, 10, 0));

        StudyPlan plan = Plan(None with { Pins = [new(first + Duration.FromMinutes(40), "Weak heavy"), new(first, "Weak light")] });

        Assert.Equal(30, plan.Blocks.Single(b => b.Start.ToInstant() == first).Minutes);
        Assert.Equal("Weak heavy", plan.Blocks.Single(b => b.Start.ToInstant() == first + Duration.FromMinutes(40)).Topic.Name);
    }

    [Fact]
    public void A_weak_topic_pinned_in_the_last_days_is_studied_before()
    {
        Instant light = At(new LocalDateTime(2026, 12, 15, 18, 30));

        StudyPlan plan = Plan(None with { Pins = [new(light, "Weak light")] });

        Assert.Equal(BlockPurpose.Review, plan.Blocks.Single(b => b.Start.ToInstant() == light).Purpose);
        Assert.Contains(plan.Blocks, b => b.Topic.Name == "Weak light" && b.Purpose == BlockPurpose.Learn);
    }

    [Fact]
    public void Contradictions_and_what_cannot_be_had_are_refused()
    {
        Refused(None with { Avoid = ["Weak light"], Include = ["Weak light"] }, "Weak light cannot be both avoided and included.");
        Refused(None with { Avoid = ["Weak light"], AtLeast = [new("Weak light", 30)] }, "Weak light cannot be both avoided and given a least number of minutes.");
        Refused(None with { Avoid = [.. Standing.Topics.Select(t => t.Topic.Name)] }, "Every topic is avoided; leave at least one.");
        Refused(None with { AtLeast = [new("Weak light", 5000)] }, "At least 5000 minutes were asked for; the free time holds ");
        RefusedPin(new LocalDateTime(2026, 11, 24, 18, 30), "it is before the plan begins");
        RefusedPin(new LocalDateTime(2026, 12, 16, 18, 30), "nothing is planned on the day of the exam or later");
        RefusedPin(new LocalDateTime(2026, 11, 28, 7, 0), "the free time holds no block of 25 minutes from then on");
        RefusedPin(new LocalDateTime(2026, 11, 28, 13, 40), "the free time holds no block of 25 minutes from then on");
        RefusedPin(new LocalDateTime(2026, 11, 28, 12, 0), "the person is busy then", new Interval(At(new LocalDateTime(2026, 11, 28, 12, 10)), null));

        // Three topics in one window.
        Instant nine = At(new LocalDateTime(2026, 11, 28, 9, 0));
        Refused(None with { Pins = [new(nine, "Weak heavy"), new(nine + Duration.FromMinutes(60), "Weak light"), new(nine + Duration.FromMinutes(120), "Strong light")] }, "There is no room for all these wishes together");
        Refused(None with { Pins = [new(nine, "Weak heavy"), new(nine + Duration.FromMinutes(20), "Weak light")] }, "the next pinned block is too near");
    }

    [Fact]
    public void A_topic_that_the_exam_does_not_have_is_the_callers_fault()
        => Assert.Throws<ArgumentException>(() => Plan(None with { Avoid = ["Pottery"] }));

    private static void RefusedPin(LocalDateTime start, string why, params Interval[] busy)
        => Refused(None with { Pins = [new(At(start), "Weak light")] }, $"cannot be pinned: {why}.", busy);

    private static void Refused(CoachWishes wishes, string why, params Interval[] busy)
    {
        WishResult result = WishedPlanner.Plan(Standing, PlannerTests.Evenings(), busy, PlannerTests.From, PlannerTests.ExamDay, wishes, cancellation: Cancellation);

        Assert.Null(result.Plan);
        Assert.Contains(result.Refusals, r => r.Contains(why, StringComparison.Ordinal));
    }

    private static StudyPlan Plan(CoachWishes wishes, Policy policy = Policy.Optimised)
    {
        WishResult result = WishedPlanner.Plan(Standing, PlannerTests.Evenings(), [], PlannerTests.From, PlannerTests.ExamDay, wishes, policy, cancellation: Cancellation);
        Assert.Empty(result.Refusals);
        return result.Plan!;
    }

    private static Instant At(LocalDateTime time) => PlannerTests.Zone.AtStrictly(time).ToInstant();
}
