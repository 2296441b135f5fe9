using System.Numerics.Tensors;

namespace Homestretch.Core.Measurement;

/// <summary>Distribution of the number of right answers to independent items.</summary>
/// <remarks>These are elementary symmetric functions of the odds, divided by a constant. Built up item by item all terms are positive, so
/// nothing cancels; divided, nothing overflows.</remarks>
internal static class ScoreDistribution
{
    /// <summary>Adds one item to the distribution of <paramref name="items"/> items.</summary>
    /// <param name="distribution">The chances of 0 to <paramref name="items"/> right answers; one more place is filled.</param>
    /// <param name="items">Items so far.</param>
    /// <param name="chance">Chance of a right answer to the new item.</param>
    public static void Add(Span<double> distribution, int items, double chance)
    {
        distribution[items + 1] = distribution[items] * chance;
        for (int r = items; r > 0; r--)
        {
            distribution[r] = (distribution[r] * (1 - chance)) + (distribution[r - 1] * chance);
        }

        distribution[0] *= 1 - chance;
    }

    /// <summary>Adds <paramref name="other"/>'s items: the distribution of the sum.</summary>
    public static void Convolve(ReadOnlySpan<double> one, ReadOnlySpan<double> other, Span<double> sum)
    {
        sum.Clear();
        for (int i = 0; i < one.Length; i++)
        {
            Span<double> target = sum.Slice(i, other.Length);
            TensorPrimitives.MultiplyAdd(other, one[i], target, target);
        }
    }
}
