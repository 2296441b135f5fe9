using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Homestretch.Core.Forecasting;

/// <summary>The standard normal distribution for four values at once.</summary>
internal static class NormalCurve
{
    private const double InverseRootOfTwoPi = 0.39894228040143267794;

    /// <summary>Chance of a value up to <paramref name="z"/>, good to 1e-7 (Abramowitz &amp; Stegun 26.2.17), and the density there.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Below(Vector256<double> z, out Vector256<double> density)
    {
        density = InverseRootOfTwoPi * Vector256.Exp(-0.5 * (z * z));
        Vector256<double> t = Vector256<double>.One / (Vector256<double>.One + (0.2316419 * Vector256.Abs(z)));
        Vector256<double> sum = (1.330274429 * t) - Vector256.Create(1.821255978);
        sum = (sum * t) + Vector256.Create(1.781477937);
        sum = (sum * t) - Vector256.Create(0.356563782);
        sum = (sum * t) + Vector256.Create(0.319381530);
        Vector256<double> tail = density * sum * t;
        return Vector256.ConditionalSelect(Vector256.LessThan(z, Vector256<double>.Zero), tail, Vector256<double>.One - tail);
    }
}
