namespace Homestretch.Core.Standing;

/// <summary>Binomial chances for many success chances at once.</summary>
public static class BinomialTable
{
    // Below this many items neither 0.5^items nor the recurrence underflows.
    private const int RecurrenceUpTo = 1000;

    /// <summary>Fills row k (of <paramref name="chances"/>.Length columns) with the chance of exactly k successes in
    /// <paramref name="items"/> trials, for each success chance.</summary>
    /// <param name="items">Trials, zero or more.</param>
    /// <param name="chances">Success chances, strictly between 0 and 1, ascending.</param>
    /// <param name="table">(items + 1) rows, row after row.</param>
    /// <remarks>Each column starts from the end where its largest term is nearer, so that nothing underflows, and goes on by the ratio of neighbouring terms.</remarks>
    public static void Fill(int items, ReadOnlySpan<double> chances, Span<double> table)
    {
        int width = chances.Length;
        if (items > RecurrenceUpTo)
        {
            FillByLogarithms(items, chances, table);
            return;
        }

        int split = 0;
        while (split < width && chances[split] <= 0.5)
        {
            split++;
        }

        Span<double> odds = width <= 512 ? stackalloc double[width] : new double[width];
        for (int i = 0; i < split; i++)
        {
            odds[i] = chances[i] / (1 - chances[i]);
            table[i] = Power(1 - chances[i], items);
        }

        for (int i = split; i < width; i++)
        {
            odds[i] = (1 - chances[i]) / chances[i];
            table[(items * width) + i] = Power(chances[i], items);
        }

        for (int k = 0; k < items; k++)
        {
            double ratio = (double)(items - k) / (k + 1);
            Step(odds[..split], ratio, table.Slice(k * width, split), table.Slice((k + 1) * width, split));
            int down = items - k;
            Step(odds[split..], ratio, table.Slice((down * width) + split, width - split), table.Slice(((down - 1) * width) + split, width - split));
        }
    }

    private static void Step(ReadOnlySpan<double> odds, double ratio, ReadOnlySpan<double> from, Span<double> to)
    {
        Spans.Product(from, odds, ratio, to);
    }

    private static double Power(double value, int exponent)
    {
        double result = 1;
        for (; exponent > 0; exponent >>= 1)
        {
            if ((exponent & 1) == 1)
            {
                result *= value;
            }

            value *= value;
        }

        return result;
    }

    private static void FillByLogarithms(int items, ReadOnlySpan<double> chances, Span<double> table)
    {
        for (int k = 0; k <= items; k++)
        {
            double ways = MathNet.Numerics.SpecialFunctions.BinomialLn(items, k);
            for (int i = 0; i < chances.Length; i++)
            {
                table[(k * chances.Length) + i] = Math.Exp(ways + (k * Math.Log(chances[i])) + ((items - k) * Math.Log(1 - chances[i])));
            }
        }
    }
}
