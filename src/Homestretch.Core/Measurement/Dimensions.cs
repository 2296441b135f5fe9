using System.Collections.Immutable;
using System.Globalization;

namespace Homestretch.Core.Measurement;

/// <summary>Whether topics are distinct in the data: correlations corrected for attenuation, and Haberman's criterion for subscores.</summary>
/// <remarks>Formulas and sources: docs/measurement.md.</remarks>
public static class Dimensions
{
    /// <summary>With fewer people the figures are shown, but no topic is said to add value or not.</summary>
    public const int FewestForVerdict = 30;

    private const double Nothing = 1e-12;

    /// <summary>The report on all topics that the items name.</summary>
    public static DimensionReport Of(ItemScores scores)
    {
        ArgumentNullException.ThrowIfNull(scores);
        ImmutableArray<string> topics = scores.Topics;
        if (topics.Length < 2)
        {
            return new DimensionReport(scores.Persons.Length, [], [], "The test holds a single topic, so there is nothing to tell apart.");
        }

        if (CovarianceTable.Of(scores, out string refusal) is not { } table)
        {
            Statistic no = Statistic.Refused(refusal);
            return new DimensionReport(
                scores.Persons.Length,
                [],
                [.. topics.Select(t => new SubscoreValue(t, scores.Items.Count(i => i.Topic == t), no, no, no, no, no, null, refusal))],
                refusal);
        }

        int[][] members = [.. topics.Select(t => Enumerable.Range(0, scores.Items.Length).Where(i => scores.Items[i].Topic == t).ToArray())];
        Statistic[] alphas = [.. members.Select(m => Reliability.Alpha(table, m))];
        int[] all = [.. Enumerable.Range(0, scores.Items.Length)];
        ImmutableArray<TopicPair>.Builder pairs = ImmutableArray.CreateBuilder<TopicPair>();
        for (int a = 0; a < topics.Length; a++)
        {
            for (int b = a + 1; b < topics.Length; b++)
            {
                pairs.Add(Pair(topics[a], topics[b], members[a], members[b], alphas[a], alphas[b], table));
            }
        }

        ImmutableArray<SubscoreValue> values = [.. topics.Select((t, i) => Value(t, members[i], alphas[i], members, alphas, all, table))];
        return new DimensionReport(table.FewestPersons, pairs.ToImmutable(), values, Summary(values, table.FewestPersons));
    }

    private static TopicPair Pair(string first, string second, int[] a, int[] b, Statistic alphaA, Statistic alphaB, CovarianceTable table)
    {
        double varianceA = table.Sum(a, a);
        double varianceB = table.Sum(b, b);
        if (varianceA <= Nothing || varianceB <= Nothing)
        {
            Statistic flat = Statistic.Refused("On one of the topics all have the same score.");
            return new TopicPair(first, second, flat, flat);
        }

        double observed = table.Sum(a, b) / Math.Sqrt(varianceA * varianceB);
        return new TopicPair(
            first,
            second,
            Statistic.Of(Math.Clamp(observed, -1, 1)),
            alphaA.Value is > 0 and { } ra && alphaB.Value is > 0 and { } rb
                ? Statistic.Of(observed / Math.Sqrt(ra * rb))
                : Statistic.Refused("One of the topics has no reliable score of its own."));
    }

    private static SubscoreValue Value(
        string topic, int[] own, Statistic alpha, int[][] members, Statistic[] alphas, int[] all, CovarianceTable table)
    {
        SubscoreValue Refused(string why)
        {
            Statistic no = Statistic.Refused(why);
            return new SubscoreValue(topic, own.Length, alpha, no, no, no, no, null, why);
        }

        if (alpha is not { Known: true, Value: { } r })
        {
            return Refused(alpha.Refusal!);
        }

        if (r <= 0)
        {
            return Refused("The topic's items do not go together, so its own score says nothing; lean on the total.") with { AddsValue = Verdict(false, table) };
        }

        double variance = table.Sum(own, own);
        double trueVariance = r * variance;
        double total = table.Sum(all, all);

        // Errors of different topics are independent, so only the topic's own error has to come out of its covariance with the total.
        double withTotal = table.Sum(own, all);
        double trueWithTotal = withTotal - ((1 - r) * variance);
        double fromTotal = Math.Clamp(trueWithTotal * trueWithTotal / (trueVariance * total), 0, 1);
        double determinant = (variance * total) - (withTotal * withTotal);
        double fromBoth = determinant <= Nothing * variance * total
            ? Math.Max(r, fromTotal)
            : ((trueVariance * trueVariance * total) - (2 * trueVariance * trueWithTotal * withTotal) + (trueWithTotal * trueWithTotal * variance))
                / determinant / trueVariance;
        bool better = r > fromTotal;
        bool? verdict = Verdict(better, table);
        int[] rest = [.. all.Except(own)];
        double errors = members.Select((m, i) => m == own ? 0 : (1 - Math.Max(0, alphas[i].Value ?? 0)) * table.Sum(m, m)).Sum();
        double restTrue = table.Sum(rest, rest) - errors;
        Statistic disjoint = restTrue > Nothing
            ? Statistic.Of(table.Sum(own, rest) / Math.Sqrt(trueVariance * restTrue))
            : Statistic.Refused("The other topics have no reliable score.");
        string figures = string.Create(CultureInfo.InvariantCulture, $"its own score foretells {r * 100:0} % of what sets people apart on it, the total {fromTotal * 100:0} %");
        return new SubscoreValue(
            topic,
            own.Length,
            alpha,
            Statistic.Of(Math.Min(1, r)),
            Statistic.Of(fromTotal),
            Statistic.Of(Math.Clamp(fromBoth, 0, 1)),
            disjoint,
            verdict,
            verdict switch
            {
                true => $"Adds something: {figures}.",
                false => $"Adds nothing over the total: {figures}; lean on the total.",
                null => $"Too few people to decide: {figures}.",
            });
    }

    private static bool? Verdict(bool better, CovarianceTable table) => table.FewestPersons < FewestForVerdict ? null : better;

    private static string Summary(ImmutableArray<SubscoreValue> values, int persons)
    {
        string[] adding = [.. values.Where(v => v.AddsValue == true).Select(v => v.Topic)];
        int judged = values.Count(v => v.AddsValue is not null);
        return judged == 0
            ? $"With {persons} {(persons == 1 ? "person" : "people")} it cannot be said whether topics are distinct."
            : adding.Length == 0
                ? "No topic's score adds anything over the total: read differences between topics as chance unless they are large, and lean on the total."
                : adding.Length == values.Length
                    ? "Every topic's score adds something over the total."
                    : $"Only {string.Join(", ", adding)} {(adding.Length == 1 ? "has a score that adds" : "have scores that add")} something over the total; on the other topics lean on the total.";
    }
}
