using System.Collections.Immutable;

namespace Homestretch.Core.Forecasting;

/// <summary>Quantiles of a distribution over counts.</summary>
public static class CountQuantile
{
    /// <summary>The fewest correct answers (or people, or whatever is counted) that are not exceeded with a chance of at least <paramref name="share"/>.</summary>
    /// <param name="distribution">Chance of exactly 0, 1, ...; one value or more.</param>
    /// <param name="share">0 to 1.</param>
    public static int Of(ImmutableArray<double> distribution, double share)
    {
        double below = 0;
        for (int count = 0; count < distribution.Length; count++)
        {
            below += distribution[count];
            if (below >= share)
            {
                return count;
            }
        }

        return distribution.Length - 1;
    }
}
