namespace Homestretch.Core.Blueprints;

/// <summary>Turns weights into whole item counts by the largest-remainder method (Hamilton's method).</summary>
/// <remarks>Balinski &amp; Young, "Fair Representation" (1982): every share gets the whole part of its quota, what is
/// left goes to the largest fractional parts. A tie goes to the heavier, then to the earlier weight.</remarks>
public static class Apportionment
{
    // Quotas such as 0.35 * 60 are not exact in binary; remainders nearer than this are a tie.
    private const double TieTolerance = 1e-9;

    /// <summary>Whole counts in proportion to <paramref name="weights"/> that sum to <paramref name="total"/>.</summary>
    /// <param name="weights">Non-negative, finite, at least one above zero.</param>
    /// <param name="total">Items to share out, zero or more.</param>
    /// <exception cref="ArgumentException">No weight is above zero, or one is negative or not a number.</exception>
    public static int[] LargestRemainder(ReadOnlySpan<double> weights, int total)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(total);
        double sum = 0;
        foreach (double weight in weights)
        {
            if (!(weight >= 0) || double.IsInfinity(weight))
            {
                throw new ArgumentException($"A weight must be zero or more; {weight} is not.", nameof(weights));
            }

            sum += weight;
        }

        if (sum <= 0)
        {
            throw new ArgumentException("At least one weight must be above zero.", nameof(weights));
        }

        int[] counts = new int[weights.Length];
        double[] remainders = new double[weights.Length];
        int[] order = new int[weights.Length];
        int left = total;
        for (int i = 0; i < weights.Length; i++)
        {
            double quota = weights[i] / sum * total;
            counts[i] = (int)Math.Floor(quota + TieTolerance);
            remainders[i] = Math.Max(0, quota - counts[i]);
            order[i] = i;
            left -= counts[i];
        }

        double[] heaviness = weights.ToArray();
        Array.Sort(order, (a, b) =>
        {
            double gap = remainders[b] - remainders[a];
            if (Math.Abs(gap) > TieTolerance)
            {
                return gap > 0 ? 1 : -1;
            }

            int heavier = heaviness[b].CompareTo(heaviness[a]);
            return heavier != 0 ? heavier : a.CompareTo(b);
        });
        for (int i = 0; i < left; i++)
        {
            counts[order[i]]++;
        }

        return counts;
    }
}
