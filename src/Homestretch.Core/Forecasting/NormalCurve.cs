using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Homestretch.Core.Forecasting;

/// <summary>The standard normal distribution for four values at once.</summary>
internal static class NormalCurve
{
    private const double InverseRootOfTwoPi = 0.39894228040143267794;

    /// <summary>Chance of a value up to <paramref name="z"/>, good to 2e-7 (Abramowitz &amp; Stegun 26.2.19, which needs no exponential).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Below(Vector256<double> z)
    {
        Vector256<double> x = Vector256.Abs(z);
        Vector256<double> sum = (0.0000053830 * x) + Vector256.Create(0.0000488906);
        sum = (sum * x) + Vector256.Create(0.0000380036);
        sum = (sum * x) + Vector256.Create(0.0032776263);
        sum = (sum * x) + Vector256.Create(0.0211410061);
        sum = (sum * x) + Vector256.Create(0.0498673470);
        sum = (sum * x) + Vector256<double>.One;
        sum *= sum;
        sum *= sum;
        sum *= sum;
        sum *= sum;
        Vector256<double> tail = Vector256.Create(0.5) / sum;
        return Vector256.ConditionalSelect(Vector256.LessThan(z, Vector256<double>.Zero), tail, Vector256<double>.One - tail);
    }

    /// <summary>Density at <paramref name="z"/>.</summary>
    public static Vector256<double> Density(Vector256<double> z) => InverseRootOfTwoPi * Vector256.Exp(-0.5 * (z * z));
}
