using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Optimising;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Tests.Planning;

/// <summary>The search's own spacing. Cepeda, Vul, Rohrer, Wixted &amp; Pashler, Psychological Science 19 (2008): the best gap between two study days is about 20 to 40 % of the time from the last of them to the test where that is a week,
/// and 5 to 10 % of a year (from memory).</summary>
public sealed class SpacingTests
{
    private const int FreeDays = 60;

    // Two sessions on one topic, at first on the last two of 60 free days that end so many days before the exam; they may lie on any of the 60.
    private static readonly int[] _delays = [7, 14, 21, 35, 70];

    [Fact]
    public void The_gap_between_two_sessions_grows_with_the_time_to_the_exam()
    {
        int[] gaps = [.. _delays.Select(Gap)];

        Assert.Equal(gaps.Distinct().Order(), gaps);

        // What docs/model.md says.
        Assert.Equal([2, 4, 5, 7, 11], gaps);
    }

    [Fact]
    public void Its_share_of_that_time_falls_from_that_published_for_a_week_towards_that_for_a_year()
    {
        double[] shares = [.. _delays.Select(d => (double)Gap(d) / d)];

        Assert.InRange(shares[0], 0.2, 0.4);
        Assert.Equal(shares.OrderDescending(), shares);
        Assert.All(shares, s => Assert.InRange(s, 0.1, 0.4));
        Assert.InRange(Gap(350) / 350.0, 0.05, 0.1);
    }

    [Theory]
    [InlineData(7)]
    [InlineData(35)]
    [InlineData(70)]
    public void No_other_two_days_leave_more(int delay)
    {
        (StudyEffort law, PlanSearch search) = Searched(delay);
        double found = search.Efforts[0];
        for (int first = 0; first < FreeDays; first++)
        {
            for (int second = first + 1; second < FreeDays; second++)
            {
                Assert.True(law.Of(0, [first, second]) <= found + 1e-4, $"days {first} and {second}");
            }
        }
    }

    private static int Gap(int delay)
    {
        int[] used = [.. Searched(delay).Search.Topics.ToArray().Index().Where(s => s.Item == 0).Select(s => s.Index)];
        Assert.Equal(2, used.Length);
        return used[1] - used[0];
    }

    private static (StudyEffort Law, PlanSearch Search) Searched(int delay)
    {
        Exam exam = SampleExams.OneSection(new PercentCut(65), SampleExams.Topic("Topic", 40));
        CandidateStanding standing = StandingCalculator.Calculate(exam, SampleExams.Diagnostic(("Topic", 12, 20)), SampleExams.Today);
        ImmutableArray<Slot> slots = [.. Enumerable.Range(0, FreeDays).Select(d => new Slot(
            PlannerTests.Zone.AtStrictly(SampleExams.Today.PlusDays(d).At(new LocalTime(18, 0))).ToInstant(), 50, SampleExams.Today.PlusDays(d), d, false))];
        LearningAssumptions learning = LearningAssumptions.Default;
        SlotTable table = new(slots, SampleExams.Today.PlusDays(FreeDays - 1 + delay), learning);
        StudyEffort law = new(table, learning, learning.BreadthFactors(exam));
        law.Load(0, standing.Topics[0].Level.Band, []);
        QuickScoreModel quick = new(exam, learning);
        quick.Load(standing.Posterior);
        PlanSearch search = new(table, law, quick, [0], SearchDetail.Thorough);
        int[] assigned = Enumerable.Repeat(BlockPlacer.Unused, FreeDays).ToArray();
        assigned[^1] = 0;
        assigned[^2] = 0;
        search.Start(assigned, [true]);
        search.Improve(TestContext.Current.CancellationToken);
        return (law, search);
    }
}
