using System.Runtime.Intrinsics;

using Homestretch.Core.Standing;

namespace Homestretch.Core.Forecasting;

/// <summary>Powers 1 to 4 of the chance of a correct answer, averaged over the exam's own draw of items, on a fine grid of abilities.</summary>
internal sealed class CurveMoments
{
    private const int DrawNodes = 5;

    private readonly (AbilityGrid Grid, ResponseCurve Curve, double DrawSd, int Below, int Above) key;
    private readonly Vector256<double>[] powers;

    /// <param name="grid">The grid whose points to have.</param>
    /// <param name="curve">Ability to chance.</param>
    /// <param name="drawSd">Spread of the difficulty of the exam's items on the topic, in logits.</param>
    /// <param name="below">Points to have below the grid as well.</param>
    /// <param name="above">Points to have above the grid as well.</param>
    public CurveMoments(AbilityGrid grid, ResponseCurve curve, double drawSd, int below, int above)
    {
        key = (grid, curve, drawSd, below, above);
        powers = new Vector256<double>[grid.Count + below + above];
        Node[] draws = GaussHermite.Normal(drawSd, DrawNodes);
        for (int i = 0; i < powers.Length; i++)
        {
            foreach (Node draw in draws)
            {
                double chance = curve.Chance(grid[i - below] + draw.At);
                double square = chance * chance;
                powers[i] += draw.Weight * Vector256.Create(chance, square, square * chance, square * square);
            }
        }
    }

    /// <summary>Whether this is what the constructor would make of these arguments.</summary>
    public bool Fits(AbilityGrid grid, ResponseCurve curve, double drawSd, int below, int above) => key == (grid, curve, drawSd, below, above);

    /// <summary>Mean, variance and third and fourth cumulants of the correct answers to <paramref name="items"/> items, when ability is spread as <paramref name="weights"/> say.</summary>
    /// <param name="items">Items of one draw.</param>
    /// <param name="weights">Weights that sum to 1.</param>
    /// <param name="start">Grid index of the first, shifted by study and form.</param>
    /// <param name="stride">Grid steps between two.</param>
    public Vector256<double> CountCumulants(int items, ReadOnlySpan<double> weights, int start, int stride)
    {
        Vector256<double> sum = Vector256<double>.Zero;
        int at = start + key.Below;
        foreach (double weight in weights)
        {
            sum += weight * powers[at];
            at += stride;
        }

        // Factorial moments of a mixture of binomials are those of the chance times n, n (n - 1), ...
        double n = items;
        double f1 = n * sum[0];
        double f2 = n * (n - 1) * sum[1];
        double f3 = n * (n - 1) * (n - 2) * sum[2];
        double f4 = n * (n - 1) * (n - 2) * (n - 3) * sum[3];
        double second = f2 + f1;
        double third = f3 + (3 * f2) + f1;
        double fourth = f4 + (6 * f3) + (7 * f2) + f1;
        double square = f1 * f1;
        return Vector256.Create(
            f1,
            second - square,
            third - (3 * second * f1) + (2 * square * f1),
            fourth - (4 * third * f1) - (3 * second * second) + (12 * second * square) - (6 * square * square));
    }
}
