using System.Collections.Immutable;

using CsCheck;

using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Optimising;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Tests.Planning;

/// <summary>The search against looking at every plan.</summary>
public sealed class OptimalityTests
{
    // In points of pass chance: 0.2.
    private const double LargestGap = 0.002;

    // The best plans by the coarse model are looked at again with the full one.
    private const int Finalists = 12;

    [Fact]
    public void In_small_cases_the_plan_is_within_a_fifth_of_a_point_of_the_best_there_is()
        => SmallCases.All.Sample(
            c =>
            {
                ScoreModel coarse = new(c.Standing, null, QuadratureDetail.Coarse);
                ScoreModel full = new(c.Standing);
                PlanDrafter drafter = new(c.Standing, coarse, c.Slots, c.ExamDay);
                PlanDraft plan = drafter.Optimised(drafter.PracticeOrder(), TestContext.Current.CancellationToken);
                double best = Best(c.Standing, c.Slots, c.ExamDay, coarse, full);
                double found = full.PassChance(plan.Effort);
                Assert.True(plan.Enough || found >= best - LargestGap, $"best {best}, found {found}");
            },
            iter: 200);

    [Fact]
    public void What_blocks_leave_is_what_the_law_of_retention_says()
        => Gen.Select(SmallCases.All, Gen.Int[0, 4].Array[8], Gen.Select(Gen.Int[1, 60], Gen.Double[0.2, 3]).Array[0, 4]).Sample(
            (c, topics, sessions) =>
            {
                ScoreModel model = new(c.Standing, null, QuadratureDetail.Coarse);
                SlotTable table = new(c.Slots, c.ExamDay, model.Learning);
                int today = StudyHistory.DayNumber(SampleExams.Today);
                StudyMoment[] past = [.. sessions.Select(s => new StudyMoment(today - s.Item1, s.Item2, Core.Evidence.StudyKind.Teaching)).OrderBy(m => m.Day)];
                StudyEffort law = new(table, model.Learning, [.. model.BreadthFactors]);
                law.Load(0, c.Standing.Topics[0].Level.Band, past);

                int[] own = [.. Enumerable.Range(0, table.Count).Where(i => topics[i] == 0)];
                BlockPurpose[] purposes = BlockPurposes.InOrder(own.Count(i => table.IsStudy[i]), c.Standing.Topics[0].Level.Band, PastBlocks.Of(past));
                int next = 0;
                StudyMoment[] planned = [.. own.Select(i => new StudyMoment(table.Day[i], table.Hours[i], (c.Slots[i].LightOnly ? BlockPurpose.Review : purposes[next++]).Kind()))];
                Assert.Equal(model.BreadthFactors[0] * model.Learning.Retained([.. past, .. planned], table.ExamDay), law.Of(0, own), 1e-12);
            },
            iter: 500);

    // The highest pass chance of all assignments that keep the rules.
    private static double Best(CandidateStanding standing, ImmutableArray<Slot> slots, LocalDate examDay, ScoreModel coarse, ScoreModel full)
    {
        int topics = standing.Topics.Length;
        SlotTable table = new(slots, examDay, coarse.Learning);
        StudyEffort law = new(table, coarse.Learning, [.. coarse.BreadthFactors]);
        for (int t = 0; t < topics; t++)
        {
            law.Load(t, standing.Topics[t].Level.Band, []);
        }

        Dictionary<string, double[]> efforts = [];
        int[] assigned = new int[slots.Length];
        while (true)
        {
            if (IsLegal(standing, table, assigned))
            {
                double[] effort = [.. Enumerable.Range(0, topics).Select(t => law.Of(t, [.. Enumerable.Range(0, slots.Length).Where(i => assigned[i] == t)]))];
                efforts.TryAdd(string.Join(' ', effort.Select(e => e.ToString("F6", null))), effort);
            }

            int place = 0;
            while (place < assigned.Length && ++assigned[place] == topics)
            {
                assigned[place++] = 0;
            }

            if (place == assigned.Length)
            {
                return efforts.Values.OrderByDescending(e => coarse.PassChance(e)).Take(Finalists).Select(e => full.PassChance(e)).DefaultIfEmpty().Max();
            }
        }
    }

    // The rules as a person would check them: two topics in a window, each in one piece; study of a topic on two days if there are two; review only of what is met or not weak.
    private static bool IsLegal(CandidateStanding standing, SlotTable table, int[] assigned)
    {
        foreach (IGrouping<int, int> window in assigned.Index().GroupBy(s => table.Window[s.Index], s => s.Item))
        {
            int[] row = [.. window];
            if (row.Zip(row.Skip(1)).Count(p => p.First != p.Second) > 1)
            {
                return false;
            }
        }

        foreach (IGrouping<int, int> topic in assigned.Index().GroupBy(s => s.Item, s => s.Index))
        {
            int[] study = [.. topic.Where(i => table.IsStudy[i])];
            if ((study.Length > 1 && table.StudyDays > 1 && study.Select(i => table.Day[i]).Distinct().Count() == 1)
                || (study.Length == 0 && standing.Topics[topic.Key].Level.Band == Band.Weak))
            {
                return false;
            }
        }

        return true;
    }
}
