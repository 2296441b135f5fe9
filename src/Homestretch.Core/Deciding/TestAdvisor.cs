using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Calibration;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

using MathNet.Numerics.Distributions;
using MathNet.Numerics.Statistics;

using NodaTime;

namespace Homestretch.Core.Deciding;

/// <summary>What one more test is worth: the expected value of its information (Raiffa &amp; Schlaifer 1961) less the minutes it takes.</summary>
/// <remarks>Results are drawn as the posterior foretells them. For each, the standing is made anew and the plan with it; what the better plan gains over
/// keeping to one plan, judged by the same new standing, is the information's worth for that result. Its mean is never negative.</remarks>
public static class TestAdvisor
{
    /// <summary>Results tried unless said otherwise: the standard error is then about a tenth of a point.</summary>
    public const int UsualResults = 64;

    // Items come as they are in the exam, also those the person knows, so a minute of a test is worth half a minute of practice that is aimed (an assumption).
    private const double PracticeShare = 0.5;

    // Differences that do not show in a percentage.
    private const double SmallGain = 0.005;

    /// <summary>Values a test.</summary>
    /// <param name="standing">The person's standing.</param>
    /// <param name="attempts">What it rests on.</param>
    /// <param name="free">When the person can study.</param>
    /// <param name="busy">When not.</param>
    /// <param name="from">When study begins; the test takes the first free time there is.</param>
    /// <param name="examDay">The day of the exam.</param>
    /// <param name="test">The test.</param>
    /// <param name="bank">Calibrated items the standing was computed with, or null.</param>
    /// <param name="results">Results to try, 2 or more.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>The value; null where the free time before the exam does not hold the test.</returns>
    /// <remarks>Cost: one standing and one plan a result, on all processors.</remarks>
    public static TestValue? Value(
        CandidateStanding standing,
        ImmutableArray<Attempt> attempts,
        FreeTime free,
        IReadOnlyList<Interval> busy,
        ZonedDateTime from,
        LocalDate examDay,
        ProposedTest test,
        ItemBank? bank = null,
        int results = UsualResults,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentNullException.ThrowIfNull(test);
        ArgumentOutOfRangeException.ThrowIfLessThan(results, 2);
        if (TakenBy(free, busy, from, examDay, test.Minutes) is not { } taken)
        {
            return null;
        }

        IReadOnlyList<Interval> fewer = [.. busy, .. taken.Select(s => new Interval(s.Start, s.End))];
        LocalDate day = taken[^1].Date;
        ZonedDateTime after = taken[^1].End.InZone(free.Zone);
        StudyHistory study = WithTest(standing, test, day);
        CandidateStanding Standing(ImmutableArray<Attempt> known)
            => StandingCalculator.Calculate(standing.Exam, known, day, standing.Posterior.Assumptions, bank, study) with { Exam = standing.Exam };

        double without = PolicyDrafts.Make(standing, free, busy, from, examDay, cancellation: cancellation).AfterOptimised.PassChance;
        CandidateStanding unknown = Standing(attempts);
        PolicyDrafts kept = PolicyDrafts.Make(unknown, free, fewer, after, examDay, cancellation: cancellation);
        double lost = kept.AfterOptimised.PassChance;
        (double Better, double Kept)[] tried = [.. Enumerable.Range(0, results)
            .AsParallel().AsOrdered().WithCancellation(cancellation)
            .Select(i =>
            {
                CandidateStanding known = Standing([.. attempts, Result(standing, test, day, i, results)]);
                ScoreModel model = new(known);
                double keeping = model.PassChance(PlanDraft.EffortOf(kept.Optimised.Pieces, known, examDay, model));
                double anew = PolicyDrafts.Make(known, free, fewer, after, examDay, cancellation: cancellation).AfterOptimised.PassChance;
                return (Math.Max(0, anew - keeping), keeping);
            })];
        double information = tried.Average(t => t.Better);
        double error = tried.Select(t => t.Better).StandardDeviation() / Math.Sqrt(results);
        return new TestValue(
            test, without, Math.Min(1, lost + information), information, without - lost, error, results, tried.Select(t => t.Kept).StandardDeviation(), Reason(without, lost, information));
    }

    private static string Reason(double without, double lost, double information)
    {
        double net = lost + information - without;
        string cost = $"its minutes would add {Points(Math.Max(0, without - lost))} as study";
        string gain = $"knowing its result would add {Points(information)} through a better plan";
        return net > SmallGain
            ? $"Worth it: {gain}, and {cost}. A bad result can cost nerve; take it when you can take that."
            : net < -SmallGain
                ? $"Study instead: {cost}, while {gain}."
                : $"It makes no difference to the pass chance: {gain}, {cost}. Take it if the practice calms you, leave it if it does not.";
    }

    private static string Points(double share)
        => share < 0.0005 ? "next to nothing" : (share * 100).ToString("0.0", CultureInfo.InvariantCulture) + " points";

    private static Slot[]? TakenBy(FreeTime free, IReadOnlyList<Interval> busy, ZonedDateTime from, LocalDate examDay, int minutes)
    {
        List<Slot> taken = [];
        foreach (Slot slot in SlotFinder.Find(free, busy, from, examDay).Slots.Where(s => !s.LightOnly))
        {
            taken.Add(slot);
            minutes -= slot.Minutes;
            if (minutes <= 0)
            {
                return [.. taken];
            }
        }

        return null;
    }

    private static StudyHistory WithTest(CandidateStanding standing, ProposedTest test, LocalDate day)
    {
        double items = Math.Max(1, test.Items.Sum());
        IEnumerable<StudySession> practice = standing.Exam.Topics
            .Select((topic, t) => new StudySession("", topic.Name, day, (int)Math.Round(PracticeShare * test.Minutes * test.Items[t] / items), StudyKind.PracticeItems))
            .Where(s => s.Minutes > 0);
        return new StudyHistory(standing.Exam, [.. standing.Study.Sessions, .. practice], standing.Study.Learning);
    }

    // The i-th of n results: the overall ability is spread evenly over what is likely, the rest falls by chance.
    private static Attempt Result(CandidateStanding standing, ProposedTest test, LocalDate day, int i, int n)
    {
        AbilityPosterior posterior = standing.Posterior;
        SplitMix random = SplitMix.For(n, i);
        int node = IndexAt(posterior.Weights.AsSpan(), (i + random.NextDouble()) / n);
        double form = posterior.FormSd * Normal.InvCDF(0, 1, Open(random));
        ImmutableArray<Observation>.Builder counts = ImmutableArray.CreateBuilder<Observation>();
        for (int t = 0; t < test.Items.Length; t++)
        {
            if (test.Items[t] == 0)
            {
                continue;
            }

            ConditionalAbility conditional = posterior.Conditional(t, node);
            double ability = posterior.Grid[conditional.Start + IndexAt(conditional.Density.AsSpan(), random.NextDouble())];
            double shift = form + (posterior.Assumptions.TopicFormSd * Normal.InvCDF(0, 1, Open(random)));
            double chance = posterior.Curves[t].Chance(ability + shift);
            int correct = Enumerable.Range(0, test.Items[t]).Count(_ => random.NextDouble() < chance);
            counts.Add(TopicCount.Exact(standing.Exam.Topics[t].Name, correct, test.Items[t]));
        }

        return new Attempt("", "proposed test", test.Kind, day, counts.ToImmutable());
    }

    private static double Open(SplitMix random) => Math.Max(random.NextDouble(), 1e-12);

    private static int IndexAt(ReadOnlySpan<double> weights, double share)
    {
        for (int k = 0; k < weights.Length; k++)
        {
            share -= weights[k];
            if (share < 0)
            {
                return k;
            }
        }

        return weights.Length - 1;
    }
}
