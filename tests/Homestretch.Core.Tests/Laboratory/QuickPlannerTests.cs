using System.Collections.Immutable;

using Homestretch.Core.Forecasting;
using Homestretch.Core.Laboratory;
using Homestretch.Core.Learning;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Tests.Laboratory;

/// <summary>Plans for simulated candidates against the plans that people get.</summary>
public sealed class QuickPlannerTests
{
    private const int Candidates = 40;

    [Fact]
    public void BriefPlansAreAboutAsGoodAsThoroughOnes()
    {
        ScenarioWorld world = new(Scenarios.All[0], 5, 10);
        double lost = 0;
        for (int candidate = 0; candidate < Candidates; candidate++)
        {
            (StudyTime time, QuickPlanner quick, PlanDrafter thorough) = Begin(world, candidate);
            double brief = quick.PassChance(quick.Optimised());

            PlanDraft draft = thorough.Optimised(thorough.PracticeOrder(), TestContext.Current.CancellationToken);
            double loss = quick.PassChance(TopicsOf(draft, time.Slots)) - brief;
            Assert.InRange(loss, -0.005, 0.01);
            lost += loss / Candidates;
        }

        Assert.InRange(lost, -0.001, 0.0015);
    }

    [Fact]
    public void ThePracticeOrderIsThePlannersOwn()
    {
        ScenarioWorld world = new(Scenarios.All[0], 5, 10);
        int same = 0;
        for (int candidate = 0; candidate < Candidates; candidate++)
        {
            (StudyTime time, QuickPlanner quick, PlanDrafter thorough) = Begin(world, candidate);
            int[] topics = quick.PracticeOrder();
            same += topics.AsSpan().SequenceEqual(TopicsOf(thorough.PracticeOrder(), time.Slots)) ? 1 : 0;
        }

        // They differ where a pass is nearly certain, and the coarser model stops a block earlier or later.
        Assert.InRange(same, Candidates - 4, Candidates);
    }

    // A candidate's first day: both planners know the same.
    private static (StudyTime Time, QuickPlanner Quick, PlanDrafter Thorough) Begin(ScenarioWorld world, int candidate)
    {
        CandidateCourse course = CandidateCourse.Draw(world, candidate);
        StudyTime time = course.Setting.Time;
        CandidateStanding standing = new QuickStanding(course.Setting.World, world.Likelihoods).Standing([course.FirstEvidence], StudyHistory.None, time.From);
        QuickPlanner quick = new(course.Setting.World.Exam);
        quick.Load(standing, time.Calendars[0]);
        return (time, quick, new PlanDrafter(standing, new ScoreModel(standing, null, QuadratureDetail.Coarse), time.Slots, time.ExamDay));
    }

    private static int[] TopicsOf(PlanDraft draft, ImmutableArray<Slot> slots)
    {
        int[] topics = [.. slots.Select(_ => BlockPlacer.Unused)];
        foreach (PlacedPiece piece in draft.Pieces)
        {
            topics[slots.IndexOf(piece.Slot)] = piece.Topic;
        }

        return topics;
    }
}
