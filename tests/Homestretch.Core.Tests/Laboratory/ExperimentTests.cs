using Homestretch.Core.Laboratory;

namespace Homestretch.Core.Tests.Laboratory;

/// <summary>Simulated candidates: the same seed gives the same figures, and the figures are honest about their own uncertainty.</summary>
public sealed class ExperimentTests
{
    [Fact]
    public void FiguresDependOnTheSeedAndNotOnThreads()
    {
        ExperimentOptions options = new()
        {
            Scenarios = [Named("missed-sessions")],
            Policies = [LaboratoryPolicy.PracticeOrder, LaboratoryPolicy.ByWeight, LaboratoryPolicy.Nothing],
            Candidates = 120,
            Exams = 7,
            Threads = 1,
        };
        ScenarioResult one = Assert.Single(Experiment.Run(options, cancellation: TestContext.Current.CancellationToken));
        ScenarioResult three = Assert.Single(Experiment.Run(options with { Threads = 3 }, cancellation: TestContext.Current.CancellationToken));
        ScenarioResult other = Assert.Single(Experiment.Run(options with { Seed = 2 }, cancellation: TestContext.Current.CancellationToken));

        Assert.Equal(Figures(one), Figures(three));
        Assert.NotEqual(Figures(one), Figures(other));
    }

    [Fact]
    public void WithoutStudyItDoesNotMatterHowPeopleLearn()
    {
        ExperimentOptions options = new() { Policies = [LaboratoryPolicy.Nothing], Candidates = 200, Exams = 10 };
        string[] names = ["as-assumed", "prerequisites", "fast-forgetting", "missed-sessions", "fatigue", "slow-learners"];
        long[] passed = [.. Experiment
            .Run(options with { Scenarios = [.. names.Select(Named)] }, cancellation: TestContext.Current.CancellationToken)
            .Select(r => Assert.Single(r.Policies).Passed)];

        Assert.All(passed, p => Assert.Equal(passed[0], p));
        Assert.InRange(passed[0], 1, 199);
    }

    [Fact]
    public void NobodyBeatsWhoIsToldTheTruth()
    {
        LaboratoryPolicy[] policies = [LaboratoryPolicy.Optimised, LaboratoryPolicy.PracticeOrder, LaboratoryPolicy.EqualShares, LaboratoryPolicy.Nothing];
        ExperimentOptions options = new() { Scenarios = [Named("as-assumed")], Policies = [.. policies, LaboratoryPolicy.Oracle], Candidates = 2000 };
        ScenarioResult result = Assert.Single(Experiment.Run(options, cancellation: TestContext.Current.CancellationToken));
        Assert.All(policies, policy =>
        {
            PairedDifference better = result.Difference(LaboratoryPolicy.Oracle, policy);
            Assert.True(better.Points > -2 * better.StandardError, $"{policy}: {better.Points} ± {better.StandardError}");
        });

        // Any study helps, and the optimised plan more than the others; with this seed by more than three standard errors.
        PairedDifference helped = result.Difference(LaboratoryPolicy.EqualShares, LaboratoryPolicy.Nothing);
        Assert.True(helped.Points > 3 * helped.StandardError);
        PairedDifference optimised = result.Difference(LaboratoryPolicy.Optimised, LaboratoryPolicy.EqualShares);
        Assert.True(optimised.Points > 3 * optimised.StandardError, $"{optimised.Points} ± {optimised.StandardError}");
    }

    [Fact]
    public void ProgressReachesTheEnd()
    {
        Furthest furthest = new();
        Experiment.Run(new ExperimentOptions { Scenarios = [Named("two-days")], Policies = [LaboratoryPolicy.Nothing], Candidates = 130 }, furthest, TestContext.Current.CancellationToken);

        Assert.Equal(130, furthest.Done);
    }

    [Fact]
    public void WorkStopsWhenTold()
    {
        using CancellationTokenSource source = new();
        source.Cancel();

        Assert.Throws<OperationCanceledException>(() => Experiment.Run(new ExperimentOptions(), null, source.Token));
    }

    // By hand: of four candidates policy 0 passes three, policy 1 two, both one; differences 1, 0, 1, -1: mean 1/4, variance 11/16.
    [Fact]
    public void PairedDifferencesByHand()
    {
        Tally tally = new(2);
        foreach ((bool a, bool b) in new[] { (true, false), (true, true), (true, false), (false, true) })
        {
            tally.Add([new CandidateOutcome(a, 60, 0.5, 0.75), new CandidateOutcome(b, 30, 0.25, 0.25)]);
        }

        ScenarioResult result = ScenarioResult.Of(Named("as-assumed"), [LaboratoryPolicy.Optimised, LaboratoryPolicy.PracticeOrder], tally);

        PairedDifference difference = result.Difference(LaboratoryPolicy.PracticeOrder, LaboratoryPolicy.Optimised);
        Assert.Equal(-0.25, difference.Points, 1e-12);
        Assert.Equal(Math.Sqrt(11.0 / 16 / 4), difference.StandardError, 1e-12);
        PolicyResult optimised = result.Of(LaboratoryPolicy.Optimised)!;
        Assert.Equal(0.75, optimised.PassRate);
        Assert.Equal(Math.Sqrt(0.75 * 0.25 / 4), optimised.StandardError, 1e-12);
        Assert.Equal(1, optimised.MeanHours);
        Assert.Equal(0.25, optimised.AtPlan.Error, 1e-9);
        Assert.Equal(0, optimised.OnEve.Error, 1e-9);
        Assert.Null(result.ShareOfOracle);
        Assert.Equal(LaboratoryPolicy.PracticeOrder, result.BestOther);
    }

    private static Scenario Named(string name) => Scenarios.All.Single(s => s.Name == name);

    private static string Figures(ScenarioResult result)
        => string.Join('|', result.Policies.Select(p => $"{p.Passed} {p.MeanHours:R} {p.AtPlan.MeanForecast:R} {p.OnEve.Error:R}").Concat(result.Differences.Select(d => $"{d.Points:R} {d.StandardError:R}")));

    private sealed class Furthest : IProgress<ExperimentProgress>
    {
        private int done;

        public int Done => done;

        public void Report(ExperimentProgress value) => InterlockedMax(value.Done);

        private void InterlockedMax(int value)
        {
            int seen = done;
            while (value > seen)
            {
                seen = Interlocked.CompareExchange(ref done, value, seen) is var now && now == seen ? value : now;
            }
        }
    }
}
