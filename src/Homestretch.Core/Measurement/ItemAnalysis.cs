using System.Collections.Immutable;
using System.Globalization;

using MathNet.Numerics.Distributions;

namespace Homestretch.Core.Measurement;

/// <summary>Classical item analysis.</summary>
/// <remarks>Formulas and sources: docs/measurement.md. An item's figures rest on those who reached it; on the other items a blank counts as
/// no credit, as in an exam. The thresholds are common practice, no source, except where a comment says otherwise.</remarks>
public static class ItemAnalysis
{
    /// <summary>A p-value from here up is too easy to tell anything.</summary>
    public const double TooEasyFrom = 0.95;

    /// <summary>A p-value no further above the chance of guessing than this is too hard.</summary>
    public const double TooHardAboveGuess = 0.05;

    /// <summary>A corrected correlation below this does not separate.</summary>
    public const double SeparatesFrom = 0.10;

    /// <summary>With fewer people than this, correlations are shown but no flag rests on them.</summary>
    public const int FewestForFlags = 20;

    /// <summary>A blank by at least this share of those concerned is flagged.</summary>
    public const double OftenBlankFrom = 0.15;

    // Kelley (1939): 27 % makes the difference between the groups most telling for normal scores.
    private const double TailShare = 0.27;
    private const int FewestInTail = 3;

    // A distractor must beat the key by this much: about the standard error of a difference in a room of sixty.
    private const double MiskeyedGap = 0.2;

    /// <summary>A report on each item, in the order of the test.</summary>
    public static ImmutableArray<ItemReport> Analyse(ItemScores scores)
    {
        ArgumentNullException.ThrowIfNull(scores);
        int[] correct = [.. scores.Persons.Select(p => p.Correct)];
        int[] given = [.. scores.Persons.Select(p => p.Answers.Count(a => a.Given))];
        return [.. Enumerable.Range(0, scores.Items.Length).Select(i => Report(scores, i, correct, given))];
    }

    private static ItemReport Report(ItemScores scores, int item, int[] correct, int[] given)
    {
        TestItem about = scores.Items[item];
        List<(ItemAnswer Answer, double Others)> reached = [];
        int notReached = 0;
        int omitted = 0;
        for (int p = 0; p < scores.Persons.Length; p++)
        {
            ItemAnswer answer = scores[p, item];
            notReached += answer.Score == ItemScore.NotReached ? 1 : 0;
            omitted += answer.Score == ItemScore.Omitted ? 1 : 0;
            if (answer.Reached)
            {
                double rest = given[p] > 1 ? (double)(correct[p] - answer.Credit) / (given[p] - 1) : double.NaN;
                reached.Add((answer, rest));
            }
        }

        int right = reached.Count(r => r.Answer.Score == ItemScore.Right);
        Statistic difficulty = reached.Count == 0
            ? Statistic.Refused("Nobody reached this item.")
            : Statistic.Of((double)right / reached.Count);
        (ItemAnswer Answer, double Others)[] ranked = [.. reached.Where(r => !double.IsNaN(r.Others)).OrderBy(r => r.Others)];
        double[] credits = [.. ranked.Select(r => (double)r.Answer.Credit)];
        double[] rests = [.. ranked.Select(r => r.Others)];
        Statistic discrimination = Correlated(credits, rests);
        Statistic biserial = discrimination is { Known: true, Value: { } r0 }
            ? Statistic.Of(Biserial(r0, credits.Average()))
            : discrimination;
        ImmutableArray<OptionReport> options = Options(about, ranked);
        ItemReport report = new(
            about,
            reached.Count + notReached,
            reached.Count(r => r.Answer.Answered),
            omitted,
            notReached,
            right,
            difficulty,
            discrimination,
            biserial,
            UpperLower(ranked),
            options,
            [],
            []);
        return Flagged(report, reached.Count);
    }

    /// <summary>Biserial from point-biserial: the normal variable behind a right or wrong answer (Pearson 1909; Lord &amp; Novick 1968, 15.5).</summary>
    internal static double Biserial(double pointBiserial, double p)
        => pointBiserial * Math.Sqrt(p * (1 - p)) / Normal.PDF(0, 1, Normal.InvCDF(0, 1, p));

    private static Statistic Correlated(double[] indicator, double[] rests)
    {
        if (indicator.Length < 3)
        {
            return Statistic.Refused("Fewer than three people reached this item and another one.");
        }

        if (Correlation.Of(indicator, rests) is { } r)
        {
            return Statistic.Of(r);
        }

        return Statistic.Refused(Array.TrueForAll(indicator, v => v == indicator[0])
            ? "All did the same on this item, so there is nothing to compare."
            : "All did equally well on the other items, so there is nothing to compare.");
    }

    // People with equal scores at the border of a group count in part, so that the order in the file makes no difference.
    private static Statistic UpperLower((ItemAnswer Answer, double Others)[] ranked)
    {
        double size = ranked.Length * TailShare;
        if (size < FewestInTail)
        {
            return Statistic.Refused($"Too few people for groups of {TailShare * 100:0} %.");
        }

        (int, double)[] low = [.. ranked.Select(r => (r.Answer.Credit, r.Others))];
        (int, double)[] high = [.. low.Reverse()];
        return Statistic.Of(TailMean(high, size) - TailMean(low, size));
    }

    private static double TailMean((int Credit, double Others)[] fromTheEnd, double size)
    {
        double sum = 0;
        double left = size;
        foreach (IGrouping<double, (int Credit, double Others)> tied in fromTheEnd.GroupBy(r => r.Others))
        {
            int count = tied.Count();
            double taken = Math.Min(left, count);
            sum += taken * tied.Average(r => r.Credit);
            left -= taken;
            if (left <= 0)
            {
                break;
            }
        }

        return sum / size;
    }

    private static ImmutableArray<OptionReport> Options(TestItem item, (ItemAnswer Answer, double Others)[] ranked)
    {
        (string Chosen, double Others)[] known = [.. ranked.Where(r => r.Answer.Chosen is not null).Select(r => (r.Answer.Chosen!, r.Others))];
        if (known.Length == 0)
        {
            return [];
        }

        string? key = item.Key ?? ranked.FirstOrDefault(r => r.Answer is { Score: ItemScore.Right, Chosen: not null }).Answer.Chosen;
        string[] names = [.. known.Select(k => k.Chosen).Concat(key is null ? [] : [key])
            .Distinct(StringComparer.OrdinalIgnoreCase).Order(StringComparer.OrdinalIgnoreCase)];
        double[] rests = [.. known.Select(k => k.Others)];
        double third = known.Length / 3.0;
        return
        [
            .. names.Select(name =>
            {
                double[] chose = [.. known.Select(k => string.Equals(k.Chosen, name, StringComparison.OrdinalIgnoreCase) ? 1.0 : 0)];
                (int, double)[] low = [.. known.Select((k, i) => ((int)chose[i], k.Others))];
                return new OptionReport(
                    name,
                    string.Equals(name, key, StringComparison.OrdinalIgnoreCase),
                    (int)chose.Sum(),
                    chose.Average(),
                    third < FewestInTail ? Statistic.Refused("Too few people for thirds.") : Statistic.Of(TailMean([.. low.Reverse()], third)),
                    third < FewestInTail ? Statistic.Refused("Too few people for thirds.") : Statistic.Of(TailMean(low, third)),
                    Correlated(chose, rests));
            }),
        ];
    }

    private static ItemReport Flagged(ItemReport report, int reached)
    {
        ImmutableArray<ItemConcern>.Builder flags = ImmutableArray.CreateBuilder<ItemConcern>();
        ImmutableArray<string>.Builder remarks = ImmutableArray.CreateBuilder<string>();
        void Flag(ItemConcern flag, string remark)
        {
            flags.Add(flag);
            remarks.Add(remark);
        }

        if (report.Difficulty is not { Known: true, Value: { } p } || reached < FewestForFlags)
        {
            if (report.Given > 0)
            {
                remarks.Add($"Seen by {People(reached)}: too few to judge the item.");
            }

            return report with { Remarks = remarks.ToImmutable() };
        }

        bool miskeyed = Miskeyed(report, reached, out string why);
        if (miskeyed)
        {
            Flag(ItemConcern.ProbablyMiskeyed, why);
        }

        if (p >= TooEasyFrom)
        {
            Flag(ItemConcern.TooEasy, $"Too easy: {(p >= 1 ? "all" : Percent(p))} answer it, so it tells little about anyone.");
        }
        else if (!miskeyed && p <= report.Item.GuessChance + TooHardAboveGuess)
        {
            Flag(ItemConcern.TooHard, report.Item.GuessChance > 0
                ? $"Too hard: {Percent(p)} answer it; guessing alone would give {Percent(report.Item.GuessChance)}."
                : $"Too hard: {Percent(p)} answer it.");
        }

        if (!miskeyed && p < TooEasyFrom && report.Discrimination is { Known: true, Value: < SeparatesFrom and var r })
        {
            Flag(ItemConcern.DoesNotSeparate, string.Create(CultureInfo.InvariantCulture, $"Does not separate: those who answer it do no better on the other items (correlation {r:0.00})."));
        }

        if (report.Omitted >= OftenBlankFrom * reached)
        {
            Flag(ItemConcern.OftenOmitted, $"Often omitted: {People(report.Omitted)} left it blank and went on; it may be unclear.");
        }

        if (report.NotReached >= OftenBlankFrom * report.Given)
        {
            Flag(ItemConcern.OftenNotReached, $"Often not reached: {People(report.NotReached)} ran out of time before it.");
        }

        return report with { Concerns = flags.ToImmutable(), Remarks = remarks.ToImmutable() };
    }

    private static bool Miskeyed(ItemReport report, int reached, out string why)
    {
        why = "";
        OptionReport? key = report.Options.FirstOrDefault(o => o.IsKey);
        if (key is not null && report.Options.Sum(o => o.Count) >= FewestForFlags)
        {
            OptionReport? rival = report.Options.Where(o => !o.IsKey).MaxBy(o => o.RestCorrelation.Value ?? double.NegativeInfinity);
            double own = key.RestCorrelation.Value ?? 0;
            if (rival?.RestCorrelation.Value is { } other && own < SeparatesFrom && other >= SeparatesFrom && other - own >= MiskeyedGap
                && rival.UpperShare.Value > key.UpperShare.Value)
            {
                why = $"Probably miskeyed: those who do well on the other items choose {rival.Option}, not the key {key.Option}.";
                return true;
            }

            return false;
        }

        if (report.Discrimination.Value is { } r && Correlation.Upper(r, reached) < 0)
        {
            why = "Probably miskeyed or misleading: those who do well on the other items get it wrong.";
            return true;
        }

        return false;
    }

    private static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{share * 100:0} %");

    private static string People(int count) => count == 1 ? "1 person" : string.Create(CultureInfo.InvariantCulture, $"{count} people");
}
