using Homestretch.Core.Standing;

namespace Homestretch.Core.Forecasting;

/// <summary>Distribution of a sum of independent counts.</summary>
internal static class Convolution
{
    /// <summary>The sum of two counts; counts of <paramref name="b"/> below <paramref name="minimum"/> are left out.</summary>
    public static double[] Of(ReadOnlySpan<double> a, ReadOnlySpan<double> b, int minimum = 0)
    {
        double[] result = new double[a.Length + b.Length - 1];
        Add(a, b, 1, result, minimum);
        return result;
    }

    /// <summary>Adds <paramref name="weight"/> times the distribution of the sum to <paramref name="target"/>.</summary>
    public static void Add(ReadOnlySpan<double> a, ReadOnlySpan<double> b, double weight, Span<double> target, int minimum = 0)
    {
        for (int i = minimum; i < b.Length; i++)
        {
            double scale = weight * b[i];
            if (scale != 0)
            {
                Span<double> part = target.Slice(i, a.Length);
                Spans.AddScaled(a, scale, part);
            }
        }
    }
}
