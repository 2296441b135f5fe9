using System.Collections.Immutable;

using MathNet.Numerics.Distributions;

namespace Homestretch.Core.Measurement;

/// <summary>Reliability of a number-correct score from one sitting.</summary>
/// <remarks>Formulas and sources: docs/measurement.md. Blanks count as no credit. Where items were missing by design, covariances are taken
/// pair by pair.</remarks>
public static class Reliability
{
    private const double IntervalConfidence = 0.95;

    /// <summary>All figures of the sum over the items of <paramref name="scores"/>.</summary>
    public static ReliabilityReport Of(ItemScores scores)
    {
        ArgumentNullException.ThrowIfNull(scores);
        int k = scores.Items.Length;
        if (CovarianceTable.Of(scores, out string refusal) is not { } table)
        {
            return Refused(scores, refusal);
        }

        int[] all = [.. Enumerable.Range(0, k)];
        double variance = table.Sum(all, all);
        double mean = MeanCorrect(scores);
        Statistic alpha = Alpha(table, all);
        Statistic kr21 = scores.Complete ? Kr21(k, mean, PopulationVariance(scores)) : Statistic.Refused("Not everyone was given every item.");
        (Statistic splitHalf, Statistic guttman) = Halves(scores, table);
        return new ReliabilityReport(
            table.FewestPersons,
            k,
            Statistic.Of(mean),
            Statistic.Of(Math.Sqrt(Math.Max(0, variance))),
            alpha,
            alpha.Value is { } a ? AlphaInterval(a, k, table.FewestPersons, IntervalConfidence) : null,
            scores.Complete ? Kr20(scores) : Statistic.Refused("Not everyone was given every item."),
            kr21,
            splitHalf,
            guttman,
            alpha is { Known: true, Value: { } r }
                ? Statistic.Of(StandardError(Math.Sqrt(variance), r))
                : Statistic.Refused("Needs a reliability."))
        {
            Errors = Errors(k, alpha, kr21),
        };
    }

    /// <summary>Feldt's interval (1965): 1 - alpha is an F-distributed multiple of its true value.</summary>
    /// <param name="alpha">Alpha.</param>
    /// <param name="items">Items, two or more.</param>
    /// <param name="persons">People, two or more.</param>
    /// <param name="confidence">Above 0, below 1.</param>
    public static StatisticInterval AlphaInterval(double alpha, int items, int persons, double confidence)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(items, 2);
        ArgumentOutOfRangeException.ThrowIfLessThan(persons, 2);
        double df1 = persons - 1;
        double df2 = df1 * (items - 1);
        double tail = (1 - confidence) / 2;
        return new StatisticInterval(1 - ((1 - alpha) * FQuantile(df1, df2, 1 - tail)), 1 - ((1 - alpha) * FQuantile(df1, df2, tail)));
    }

    /// <summary>Reliability of a test <paramref name="factor"/> times as long (Spearman 1910, Brown 1910).</summary>
    /// <param name="reliability">Reliability at the present length.</param>
    /// <param name="factor">New length over present length, above zero.</param>
    public static double SpearmanBrown(double reliability, double factor) => factor * reliability / (1 + ((factor - 1) * reliability));

    /// <summary>Formula 21 of Kuder and Richardson from mean and variance alone.</summary>
    /// <param name="items">Items.</param>
    /// <param name="mean">Mean number of correct answers.</param>
    /// <param name="populationVariance">Variance of the number of correct answers, divided by the number of people.</param>
    public static Statistic Kr21(int items, double mean, double populationVariance) => items < 2
        ? Statistic.Refused("One item has no reliability of its own.")
        : populationVariance <= Nothing
            ? Statistic.Refused("All have the same score.")
            : Statistic.Of(items / (items - 1.0) * (1 - (mean * (items - mean) / (items * populationVariance))));

    internal static double StandardError(double standardDeviation, double reliability) => standardDeviation * Math.Sqrt(Math.Max(0, 1 - reliability));

    /// <summary>Alpha of the sum over <paramref name="items"/>.</summary>
    internal static Statistic Alpha(CovarianceTable table, ReadOnlySpan<int> items)
    {
        int k = items.Length;
        if (k < 2)
        {
            return Statistic.Refused("One item has no reliability of its own.");
        }

        double variance = table.Sum(items, items);
        if (variance <= Nothing)
        {
            return Statistic.Refused("All have the same score.");
        }

        // Covariances taken pair by pair over different people need not be those of any one group.
        double alpha = k / (k - 1.0) * (1 - (table.Trace(items) / variance));
        return alpha > 1 + 1e-9
            ? Statistic.Refused("Too many answers are missing: pairs of items contradict each other.")
            : Statistic.Of(Math.Min(1, alpha));
    }

    internal static double PopulationVariance(ItemScores scores)
    {
        double mean = scores.Persons.Average(p => (double)p.Correct);
        return scores.Persons.Average(p => (p.Correct - mean) * (p.Correct - mean));
    }

    private const double Nothing = 1e-12;

    // The beta quantile is better conditioned than the library's F quantile far from the middle.
    private static double FQuantile(double df1, double df2, double probability)
    {
        double x = Beta.InvCDF(df1 / 2, df2 / 2, probability);
        return df2 * x / (df1 * (1 - x));
    }

    private static Statistic Kr20(ItemScores scores)
    {
        int k = scores.Items.Length;
        double variance = PopulationVariance(scores);
        if (k < 2)
        {
            return Statistic.Refused("One item has no reliability of its own.");
        }

        if (variance <= Nothing)
        {
            return Statistic.Refused("All have the same score.");
        }

        double pq = 0;
        for (int i = 0; i < k; i++)
        {
            double p = scores.Persons.Average(person => (double)person.Answers[i].Credit);
            pq += p * (1 - p);
        }

        return Statistic.Of(k / (k - 1.0) * (1 - (pq / variance)));
    }

    // Items alternate within each topic, so that both halves cover the topics alike.
    private static (Statistic SplitHalf, Statistic Guttman) Halves(ItemScores scores, CovarianceTable table)
    {
        int k = scores.Items.Length;
        if (k < 2)
        {
            Statistic one = Statistic.Refused("One item cannot be halved.");
            return (one, one);
        }

        int[] byTopic = [.. scores.Topics.SelectMany(t => Enumerable.Range(0, k).Where(i => scores.Items[i].Topic == t))];
        int[] odd = [.. byTopic.Where((_, place) => place % 2 == 0)];
        int[] even = [.. byTopic.Where((_, place) => place % 2 == 1)];
        return OfHalves(table.Sum(odd, odd), table.Sum(even, even), table.Sum(odd, even));
    }

    /// <summary>Spearman-Brown and Guttman figures of two halves with the given variances and covariance.</summary>
    internal static (Statistic SplitHalf, Statistic Guttman) OfHalves(double first, double second, double covariance)
    {
        if (first <= Nothing || second <= Nothing)
        {
            Statistic flat = Statistic.Refused("On one half all have the same score.");
            return (flat, flat);
        }

        double r = Math.Clamp(covariance / Math.Sqrt(first * second), -1, 1);
        double variance = first + second + (2 * covariance);
        return (
            r <= -1 + Nothing ? Statistic.Refused("The two halves contradict each other.") : Statistic.Of(SpearmanBrown(r, 2)),
            variance <= Nothing ? Statistic.Refused("All have the same score.") : Statistic.Of(4 * covariance / variance));
    }

    private static ImmutableArray<ScoreError> Errors(int k, Statistic alpha, Statistic kr21)
    {
        if (k < 2)
        {
            return [];
        }

        ImmutableArray<ScoreError>.Builder errors = ImmutableArray.CreateBuilder<ScoreError>(k + 1);
        for (int x = 0; x <= k; x++)
        {
            double lord = Math.Sqrt(x * (k - x) / (k - 1.0));
            Statistic keats = alpha.Value is { } r && kr21.Value is { } r21 && r <= 1 && r21 < 1
                ? Statistic.Of(lord * Math.Sqrt((1 - r) / (1 - r21)))
                : Statistic.Refused("Needs a reliability.");
            errors.Add(new ScoreError(x, lord, keats));
        }

        return errors.MoveToImmutable();
    }

    // With items missing by design, the sum of the items' own means.
    private static double MeanCorrect(ItemScores scores)
    {
        double sum = 0;
        for (int i = 0; i < scores.Items.Length; i++)
        {
            int given = scores.Persons.Count(p => p.Answers[i].Given);
            sum += given == 0 ? 0 : (double)scores.Persons.Sum(p => p.Answers[i].Credit) / given;
        }

        return sum;
    }

    private static ReliabilityReport Refused(ItemScores scores, string why)
    {
        Statistic no = Statistic.Refused(why);
        return new ReliabilityReport(scores.Persons.Length, scores.Items.Length, no, no, no, null, no, no, no, no, no)
        {
            Errors = Errors(scores.Items.Length, no, no),
        };
    }
}
