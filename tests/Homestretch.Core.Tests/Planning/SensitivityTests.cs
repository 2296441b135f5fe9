using System.Collections.Immutable;

using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Sensitivity;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Tests.Planning;

public sealed class SensitivityTests
{
    private static readonly ImmutableArray<Attempt> _attempts = SampleExams.HalfLength(SampleExams.Large(), 0.55, 0.7, 0.45, 0.6);
    private static readonly CandidateStanding _standing = StandingCalculator.Calculate(SampleExams.Large(), _attempts, SampleExams.Today);
    private static readonly StudyPlan _plan = Planner.Plan(_standing, PlannerTests.Evenings(), [], PlannerTests.From, PlannerTests.ExamDay);
    private static readonly Lazy<SensitivityTable> _table = new(() => SensitivityCalculator.Vary(_standing, _attempts, _plan, PlannerTests.Evenings(), []));

    [Fact]
    public void The_pass_chance_with_the_values_in_use_is_the_plans()
        => Assert.Equal(_plan.Outcome(Policy.Optimised).PassChance, _table.Value.PassChance, 1e-12);

    [Fact]
    public void The_value_in_use_lies_within_each_range_and_each_range_has_a_source()
        => Assert.All(_table.Value.Effects, e =>
        {
            Assert.InRange(e.Range.Value, e.Range.Low, e.Range.High);
            Assert.True(e.Range.Low < e.Range.High);
            Assert.NotEqual("", e.Range.Source);
            Assert.Equal((e.Range.Low, e.Range.High), (e.Low.Value, e.High.Value));
        });

    [Theory]
    [InlineData("RatePerHour", true)]
    [InlineData("SaturationHours", true)]
    [InlineData("Review gain", true)]
    [InlineData("MeanAbility", true)]
    [InlineData("RetentionExponent", false)]
    [InlineData("PracticeItems forgetting", false)]
    public void What_helps_raises_the_pass_chance(string name, bool helps)
    {
        AssumptionEffect effect = Effect(name);
        Assert.Equal(helps, effect.High.Kept > effect.Low.Kept);
    }

    [Fact]
    public void The_figures_are_those_of_planning_under_the_other_value()
    {
        AssumptionEffect effect = Effect("Breadth");
        CandidateStanding other = _standing with { Study = StudyHistory.None.With(_standing.Exam, LearningAssumptions.Default with { Breadth = effect.High.Value }) };
        StudyPlan best = Planner.Plan(other, PlannerTests.Evenings(), [], PlannerTests.From, PlannerTests.ExamDay, cancellation: TestContext.Current.CancellationToken);
        int moved = _plan.Minutes.Sum(m => Math.Max(0, m.Minutes - best.Minutes.Where(b => b.Topic == m.Topic).Sum(b => b.Minutes)));

        Assert.Equal(best.Outcome(Policy.Optimised).PassChance, effect.High.Best, 1e-12);
        Assert.Equal(moved, effect.High.MovedMinutes);
        Assert.True(effect.High.Kept < effect.High.Best);
    }

    [Fact]
    public void Keeping_the_plan_never_gains_and_moves_nothing_where_it_costs_nothing()
        => Assert.All(_table.Value.Effects.SelectMany(e => new[] { e.Low, e.High }), o =>
        {
            Assert.True(o.Regret >= 0);
            Assert.True(o.Regret > 0 || o.MovedMinutes == 0);
        });

    [Fact]
    public void What_matters_to_the_plan_comes_first_and_is_named()
    {
        bool[] matter = [.. _table.Value.Effects.Select(SensitivityTable.MattersToPlan)];
        Assert.Equal(matter.OrderByDescending(m => m), matter);
        Assert.All(_table.Value.Effects.Where(SensitivityTable.MattersToPlan), e => Assert.Contains(e.Range.Words, _table.Value.Sentences[0], StringComparison.Ordinal));
        Assert.Contains(_table.Value.Effects.MaxBy(e => e.Swing)!.Range.Words, _table.Value.Sentences[1], StringComparison.Ordinal);
    }

    [Fact]
    public void Pace_is_varied_only_where_it_is_known_to_matter()
        => Assert.DoesNotContain(_table.Value.Effects, e => e.Range.Name == "Pace");

    private static AssumptionEffect Effect(string name) => _table.Value.Effects.Single(e => e.Range.Name == name);
}
