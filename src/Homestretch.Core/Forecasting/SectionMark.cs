using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Homestretch.Core.Forecasting;

/// <summary>A mark on a count that is known by its first four cumulants, under four conditions at once.</summary>
/// <param name="Mark">Fewest correct answers that reach it.</param>
/// <param name="Items">Most correct answers there can be.</param>
/// <remarks>The normal value after Cornish &amp; Fisher (1938), taken at the half between two counts. A count with a number between -1/2 and 1/2 added to it is continuous and has the
/// same chances at the halves; that number's cumulants are added first.</remarks>
internal readonly record struct SectionMark(int Mark, int Items)
{
    private const double UniformVariance = 1 / 12.0;
    private const double UniformFourth = -1 / 120.0;

    // The correction is a polynomial; it is not trusted further out, nor for counts more skewed than this.
    private const double Furthest = 3.5;
    private const double MostSkewed = 1;

    /// <summary>Chance to reach the mark.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<double> Reached(in Cumulants count)
    {
        if (Mark <= 0 || Mark > Items)
        {
            return Mark <= 0 ? Vector256<double>.One : Vector256<double>.Zero;
        }

        Scales(count, out Vector256<double> inverse, out Vector256<double> inverseSd, out Vector256<double> skewness, out Vector256<double> kurtosis);
        Vector256<double> z = (count.Mean - Vector256.Create(Mark - 0.5)) * inverseSd;
        Vector256<double> at = Clamp(z, Furthest);
        Vector256<double> square = at * at;
        Vector256<double> normal = z
            + (skewness * (square - Vector256<double>.One) * (1 / 6.0))
            - (kurtosis * at * (square - Vector256.Create(3.0)) * (1 / 24.0))
            + (skewness * skewness * at * ((4 * square) - Vector256.Create(7.0)) * (1 / 36.0));
        return NormalCurve.Below(normal);
    }

    /// <summary>Chance to reach the mark, and its derivatives with respect to the cumulants.</summary>
    public Vector256<double> Reached(in Cumulants count, out Cumulants slopes)
    {
        slopes = default;
        if (Mark <= 0 || Mark > Items)
        {
            return Mark <= 0 ? Vector256<double>.One : Vector256<double>.Zero;
        }

        Vector256<double> one = Vector256<double>.One;
        Scales(count, out Vector256<double> inverse, out Vector256<double> inverseSd, out Vector256<double> skewness, out Vector256<double> kurtosis);
        Vector256<double> z = (count.Mean - Vector256.Create(Mark - 0.5)) * inverseSd;
        Vector256<double> at = Clamp(z, Furthest);
        Vector256<double> square = at * at;
        Vector256<double> bySkewness = Within(skewness, ((square - one) * (1 / 6.0)) + (skewness * at * ((4 * square) - Vector256.Create(7.0)) * (1 / 18.0)));
        Vector256<double> kurtosisFactor = at * (square - Vector256.Create(3.0)) * (-1 / 24.0);
        Vector256<double> byKurtosis = Within(kurtosis, kurtosisFactor);
        Vector256<double> normal = z + (skewness * (square - one) * (1 / 6.0)) + (kurtosis * kurtosisFactor) + (skewness * skewness * at * ((4 * square) - Vector256.Create(7.0)) * (1 / 36.0));
        Vector256<double> curvature = (skewness * at * (1 / 3.0))
            - (kurtosis * (square - one) * (1 / 8.0))
            + (skewness * skewness * ((12 * square) - Vector256.Create(7.0)) * (1 / 36.0));
        Vector256<double> stretch = one + Vector256.ConditionalSelect(Vector256.Equals(z, at), curvature, Vector256<double>.Zero);
        Vector256<double> density = NormalCurve.Density(normal);
        slopes = new Cumulants(
            density * stretch * inverseSd,
            density * inverse * ((-0.5 * (z * stretch)) - (1.5 * (skewness * bySkewness)) - (2 * (kurtosis * byKurtosis))),
            density * inverse * inverseSd * bySkewness,
            density * inverse * inverse * byKurtosis);
        return NormalCurve.Below(normal);
    }

    /// <summary>Chance to reach the mark, and the cumulants of those counts that do.</summary>
    public Vector256<double> Truncated(in Cumulants count, out Cumulants kept)
    {
        kept = count;
        if (Mark <= 0)
        {
            return Vector256<double>.One;
        }

        // Moments of a normal variable cut off below. Where hardly anything is left, what it is like does not matter.
        Vector256<double> one = Vector256<double>.One;
        Vector256<double> variance = count.Variance + Vector256.Create(UniformVariance);
        Vector256<double> sd = Vector256.Sqrt(variance);
        Vector256<double> cut = Vector256.MinNative((Vector256.Create(Mark - 0.5) - count.Mean) / sd, Vector256.Create(5.0));
        Vector256<double> hazard = NormalCurve.Density(cut) / (one - NormalCurve.Below(cut));
        Vector256<double> left = one - (hazard * (hazard - cut));
        kept = new Cumulants(
            count.Mean + (sd * hazard),
            (variance * left) - Vector256.Create(UniformVariance),
            (count.Third * left) + (sd * variance * hazard * ((2 * (hazard * hazard)) - (3 * (cut * hazard)) + (cut * cut) - one)),
            count.Fourth * left);
        return Reached(count);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Scales(in Cumulants count, out Vector256<double> inverse, out Vector256<double> inverseSd, out Vector256<double> skewness, out Vector256<double> kurtosis)
    {
        inverse = Vector256<double>.One / Vector256.MaxNative(count.Variance + Vector256.Create(UniformVariance), Vector256.Create(UniformVariance));
        inverseSd = Vector256.Sqrt(inverse);
        skewness = Clamp(count.Third * (inverse * inverseSd), MostSkewed);
        kurtosis = Clamp((count.Fourth + Vector256.Create(UniformFourth)) * (inverse * inverse), MostSkewed);
    }

    private static Vector256<double> Within(Vector256<double> clamped, Vector256<double> slope)
        => Vector256.ConditionalSelect(Vector256.LessThan(Vector256.Abs(clamped), Vector256.Create(MostSkewed)), slope, Vector256<double>.Zero);

    private static Vector256<double> Clamp(Vector256<double> value, double most)
        => Vector256.MinNative(Vector256.MaxNative(value, Vector256.Create(-most)), Vector256.Create(most));
}
