using System.Collections.Immutable;

namespace Homestretch.Core.Measurement;

/// <summary>Infit and outfit of Rasch items (Wright &amp; Masters 1982), with each person's ability by maximum likelihood.</summary>
public static class RaschFitTest
{
    /// <summary>One result per calibrated item; items that nobody with a mixed score answered are left out.</summary>
    /// <param name="items">Calibrated Rasch items.</param>
    /// <param name="data">The answers.</param>
    /// <exception cref="ArgumentException">An item's slope is not 1, or the data do not have it.</exception>
    public static ImmutableArray<RaschItemFit> Fit(ImmutableArray<ItemEstimate> items, ResponseMatrix data)
    {
        ArgumentNullException.ThrowIfNull(data);
        int[] columns = [.. items.Select(i => data.Items.IndexOf(i.Item))];
        if (columns.Contains(-1) || items.Any(i => i.Curve is not { Discrimination: 1, Guessing: 0 }))
        {
            throw new ArgumentException("Infit and outfit need Rasch items that the answers hold.", nameof(items));
        }

        double[] squares = new double[items.Length];
        double[] variances = new double[items.Length];
        double[] standardised = new double[items.Length];
        int[] persons = new int[items.Length];
        Answer[] answers = new Answer[items.Length];
        for (int p = 0; p < data.Patterns; p++)
        {
            for (int j = 0; j < answers.Length; j++)
            {
                answers[j] = data.AnswerOf(p, columns[j]);
            }

            if (Ability(items, answers) is not { } ability)
            {
                continue;
            }

            int count = data.Counts[p];
            for (int j = 0; j < answers.Length; j++)
            {
                if (answers[j] == Answer.Missing)
                {
                    continue;
                }

                double chance = items[j].Curve.Chance(ability);
                double residual = (answers[j] == Answer.Right ? 1 : 0) - chance;
                double variance = chance * (1 - chance);
                squares[j] += count * residual * residual;
                variances[j] += count * variance;
                standardised[j] += count * residual * residual / variance;
                persons[j] += count;
            }
        }

        return [.. Enumerable.Range(0, items.Length)
            .Where(j => persons[j] > 0)
            .Select(j => new RaschItemFit(items[j].Item, squares[j] / variances[j], standardised[j] / persons[j], persons[j]))];
    }

    // Maximum likelihood by bisection; null when all or none are right.
    private static double? Ability(ImmutableArray<ItemEstimate> items, ReadOnlySpan<Answer> answers)
    {
        int given = 0;
        int right = 0;
        double low = double.PositiveInfinity;
        double high = double.NegativeInfinity;
        for (int j = 0; j < answers.Length; j++)
        {
            if (answers[j] != Answer.Missing)
            {
                given++;
                right += answers[j] == Answer.Right ? 1 : 0;
                low = Math.Min(low, items[j].Curve.Difficulty);
                high = Math.Max(high, items[j].Curve.Difficulty);
            }
        }

        if (right == 0 || right == given)
        {
            return null;
        }

        // If all items were as hard as the easiest or the hardest one, the ability would be this.
        double logit = Math.Log((double)right / (given - right));
        low += logit;
        high += logit;
        for (int step = 0; step < 60 && high - low > 1e-12; step++)
        {
            double middle = (low + high) / 2;
            double expected = 0;
            for (int j = 0; j < answers.Length; j++)
            {
                expected += answers[j] == Answer.Missing ? 0 : items[j].Curve.Chance(middle);
            }

            (low, high) = expected < right ? (middle, high) : (low, middle);
        }

        return (low + high) / 2;
    }
}
