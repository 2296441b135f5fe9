using System.Collections.Immutable;

using Homestretch.Core.Standing;

using MathNet.Numerics.Distributions;

namespace Homestretch.Core.Measurement;

/// <summary>Checks calibrated items against the answers: S-X2 (Orlando &amp; Thissen, Applied Psychological Measurement 24, 2000).</summary>
/// <remarks>Persons are grouped by their total score, which is seen, rather than by ability, which is not. The share correct expected in a group
/// comes from the score distribution with and without the item (Lord &amp; Wingersky 1984), averaged over the ability distribution. Only persons
/// who answered every calibrated item take part, since totals of different items do not compare.</remarks>
public static class ItemFitTest
{
    private const int Nodes = 61;
    private const double FewestExpected = 1;

    /// <summary>One result per calibrated item, or none when nobody answered all of them.</summary>
    /// <param name="calibration">The calibration.</param>
    /// <param name="data">The answers it was made from.</param>
    public static ImmutableArray<ItemFit> SX2(MarginalCalibration calibration, ResponseMatrix data)
    {
        ArgumentNullException.ThrowIfNull(calibration);
        ArgumentNullException.ThrowIfNull(data);
        int size = calibration.Items.Length;
        int[] columns = [.. calibration.Items.Select(i => data.Items.IndexOf(i.Item))];
        (double[] persons, double[,] right) = Tally(data, columns);
        if (persons.Sum() == 0)
        {
            return [];
        }

        AbilityNodes nodes = new(Nodes);
        double[] whole = new double[size + 1];
        double[,] both = new double[size, size + 1];
        double[] rest = new double[size];
        double[] chances = new double[size];
        double[] with = new double[size + 1];
        for (int k = 0; k < nodes.Count; k++)
        {
            double weight = Math.Exp(nodes.LogWeights[k]);
            double theta = nodes.Values[k] * calibration.AbilitySd;
            for (int j = 0; j < size; j++)
            {
                chances[j] = calibration.Items[j].Curve.Chance(theta);
            }

            for (int j = 0; j < size; j++)
            {
                Array.Clear(rest);
                rest[0] = 1;
                int count = 0;
                for (int other = 0; other < size; other++)
                {
                    if (other != j)
                    {
                        ScoreDistribution.Add(rest, count++, chances[other]);
                    }
                }

                for (int r = 1; r <= size; r++)
                {
                    both[j, r] += weight * chances[j] * rest[r - 1];
                }

                if (j == 0)
                {
                    rest.CopyTo(with, 0);
                    with[size] = 0;
                    ScoreDistribution.Add(with, size - 1, chances[0]);
                    for (int r = 0; r <= size; r++)
                    {
                        whole[r] += weight * with[r];
                    }
                }
            }
        }

        int free = calibration.Model switch { ItemModel.Rasch => 1, ItemModel.TwoParameter => 2, _ => 3 };
        return [.. Enumerable.Range(0, size).Select(j => OfItem(calibration.Items[j].Item, j, persons, right, whole, both, free))];
    }

    private static ItemFit OfItem(string item, int j, double[] persons, double[,] right, double[] whole, double[,] both, int free)
    {
        List<(double Persons, double Right, double Expected)> groups = [];
        for (int r = 1; r < persons.Length - 1; r++)
        {
            groups.Add((persons[r], right[j, r], whole[r] > 0 ? persons[r] * both[j, r] / whole[r] : 0));
        }

        Merge(groups);
        double statistic = 0;
        int used = 0;
        foreach ((double n, double seen, double expected) in groups)
        {
            if (expected > 0 && expected < n)
            {
                statistic += (seen - expected) * (seen - expected) * n / (expected * (n - expected));
                used++;
            }
        }

        int degrees = used - free;
        return new ItemFit(item, statistic, degrees, degrees > 0 ? 1 - ChiSquared.CDF(degrees, statistic) : null);
    }

    // A group where fewer than one right or wrong answer is expected joins its neighbour nearer to the middle.
    private static void Merge(List<(double Persons, double Right, double Expected)> groups)
    {
        static bool Thin((double Persons, double Right, double Expected) g) => g.Expected < FewestExpected || g.Persons - g.Expected < FewestExpected;
        for (int at = 0; at < groups.Count && groups.Count > 1;)
        {
            if (!Thin(groups[at]))
            {
                at++;
                continue;
            }

            int into = at < groups.Count / 2 || at == 0 ? at + 1 : at - 1;
            (double p, double r, double e) = groups[at];
            groups[into] = (groups[into].Persons + p, groups[into].Right + r, groups[into].Expected + e);
            groups.RemoveAt(at);
            at = Math.Max(0, at - 1);
        }
    }

    private static (double[] Persons, double[,] Right) Tally(ResponseMatrix data, int[] columns)
    {
        double[] persons = new double[columns.Length + 1];
        double[,] right = new double[columns.Length, columns.Length + 1];
        Answer[] answers = new Answer[columns.Length];
        for (int p = 0; p < data.Patterns; p++)
        {
            int score = 0;
            bool complete = true;
            for (int j = 0; j < columns.Length; j++)
            {
                answers[j] = data.AnswerOf(p, columns[j]);
                complete &= answers[j] != Answer.Missing;
                score += answers[j] == Answer.Right ? 1 : 0;
            }

            if (!complete)
            {
                continue;
            }

            persons[score] += data.Counts[p];
            for (int j = 0; j < columns.Length; j++)
            {
                right[j, score] += answers[j] == Answer.Right ? data.Counts[p] : 0;
            }
        }

        return (persons, right);
    }
}
