using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Calibration;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Measurement;
using Homestretch.Core.Planning;
using Homestretch.Core.Standing;

namespace Homestretch.Core.AdaptiveTesting;

/// <summary>Chooses the items of a quick diagnostic, one by one or as a set, by what their answers are expected to tell; and says when to stop.</summary>
/// <remarks>An item's information is the expected squared change of the pass chance through its answer: by so much the answer lowers the expected squared error of the
/// pass chance. It follows exactly from the joint posterior of abilities and a pass (the preposterior analysis of Bayesian adaptive testing: van der
/// Linden &amp; Pashley in van der Linden &amp; Glas 2010; for a decision at a cut score: Lord 1980, chapter 11). docs/measurement.md has the formulas.</remarks>
public static class NextItemFinder
{
    /// <summary>The next step of a diagnostic.</summary>
    /// <param name="standing">Where the person stands, from all answers so far; without any it rests on the prior alone.</param>
    /// <param name="bank">Calibrated items on topics of the exam.</param>
    /// <param name="given">What has been given so far.</param>
    /// <param name="rules">How to choose and when to stop.</param>
    /// <param name="count">Items to choose: 1 for the next one, more for a set that is given before any of its answers is seen.</param>
    /// <param name="lot">Draws among items that tell about as much; the person's name, for instance. Same text, same items.</param>
    /// <exception cref="ArgumentException">The bank has a topic that the exam does not have.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="count"/> is below 1, or the rules allow nothing.</exception>
    public static DiagnosticStep Find(CandidateStanding standing, ItemBank bank, GivenItems given, DiagnosticRules rules, int count, string lot)
    {
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentNullException.ThrowIfNull(bank);
        ArgumentNullException.ThrowIfNull(given);
        ArgumentNullException.ThrowIfNull(rules);
        ArgumentNullException.ThrowIfNull(lot);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(count);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(rules.AmongBest);
        Exam exam = standing.Exam;
        AbilityPosterior posterior = standing.Posterior;
        ItemPool pool = new(exam, bank, given, rules);
        PassByAbility pass = new(exam, posterior);
        AbilityWithPass[] joint = pass.Joint();
        AnswerMoments moments = new(exam, posterior, joint, bank, pool.Items);
        PassSureness sureness = PassSureness.Of(posterior, pass, Spans.Sum(joint[0].Passing));

        int[] matter = rules.Target == DiagnosticTarget.Bands ? TopicsThatMatter(standing) : [];
        BandIndicator[] bands = [.. matter.SelectMany(t => moments.Bands(exam.Topics[t], t, exam.Bands))];
        ItemSearch search = new(
            pool.Items.Length,
            moments.Covariance,
            Enumerable.Range(0, pool.Items.Length).Select(i => rules.Target == DiagnosticTarget.Bands
                ? [.. bands.Select(b => moments.CovarianceWith(i, b))]
                : ImmutableArray.Create(moments.CovarianceWithPass(i))));
        ImmutableArray<TopicStanding> levels = rules.Target == DiagnosticTarget.Bands ? [.. matter.Select(t => standing.Topics[t])] : [];
        double doubt = rules.Target == DiagnosticTarget.Bands ? bands.Sum(b => b.Chance * (1 - b.Chance)) : sureness.Sd * sureness.Sd;
        bool settled = rules.Target == DiagnosticTarget.Bands ? levels.All(l => l.Level.Settled) : sureness.Settled;

        BankStock stock = pool.Stock;
        int done = given.Sitting.Length;
        bool longEnough = done >= rules.AtLeast;
        StopReason? stop =
            done >= rules.AtMost ? StopReason.LongEnough
            : longEnough && settled ? StopReason.Settled
            : stock.Open == 0 ? StopReason.NothingLeft
            : longEnough && pool.Open.Max(search.Information) < rules.LeastChange * rules.LeastChange ? StopReason.LittleToLearn
            : null;
        ImmutableArray<NextItem> items = stop is null
            ? Choose(pool, search, moments, rules, Math.Min(count, rules.AtMost - done), Lot.Of($"{lot} {done}"))
            : [];
        return new DiagnosticStep(rules, done, sureness, levels, stock, stop, items, doubt);
    }

    private static ImmutableArray<NextItem> Choose(ItemPool pool, ItemSearch search, AnswerMoments moments, DiagnosticRules rules, int count, SplitMix lot)
    {
        ImmutableArray<NextItem>.Builder items = ImmutableArray.CreateBuilder<NextItem>();
        while (items.Count < count && pool.Open.Length > 0)
        {
            (int Item, double Information)[] best =
                [.. pool.Open.Select(i => (Item: i, Information: search.Information(i))).OrderByDescending(i => i.Information).Take(rules.AmongBest)];
            int among = best.Count(i => i.Information >= rules.NearlyBest * best[0].Information);
            (int item, double information) = best[lot.Below(among)];
            items.Add(new NextItem(
                pool.Items[item],
                pool.AnyBehind ? ItemReason.TopicBehind : ItemReason.TellsMost,
                moments.Chance(item),
                moments.PassAfter(item, right: true),
                moments.PassAfter(item, right: false),
                information));
            search.Take(item);
            pool.Take(item);
        }

        return items.ToImmutable();
    }

    // The levels that a plan turns on: those of topics where study moves the pass chance, by the same measure as for a test's further items.
    private static int[] TopicsThatMatter(CandidateStanding standing)
    {
        double[] gains = [.. WorthCalculator.NextMinutes(standing).Select(w => w.PassGain)];
        double best = gains.Max();
        return [.. Enumerable.Range(0, gains.Length).Where(t => best > 0 && gains[t] >= FurtherItems.MattersFrom * best)];
    }
}
