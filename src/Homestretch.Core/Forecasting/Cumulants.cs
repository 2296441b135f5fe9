using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Homestretch.Core.Forecasting;

/// <summary>First four cumulants of a count under four conditions at once.</summary>
internal readonly struct Cumulants(Vector256<double> mean, Vector256<double> variance, Vector256<double> third, Vector256<double> fourth)
{
    public readonly Vector256<double> Mean = mean;
    public readonly Vector256<double> Variance = variance;
    public readonly Vector256<double> Third = third;
    public readonly Vector256<double> Fourth = fourth;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Cumulants operator +(in Cumulants a, in Cumulants b)
        => new(a.Mean + b.Mean, a.Variance + b.Variance, a.Third + b.Third, a.Fourth + b.Fourth);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Cumulants operator -(in Cumulants a, in Cumulants b)
        => new(a.Mean - b.Mean, a.Variance - b.Variance, a.Third - b.Third, a.Fourth - b.Fourth);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Cumulants operator *(Vector256<double> scale, in Cumulants a)
        => new(scale * a.Mean, scale * a.Variance, scale * a.Third, scale * a.Fourth);

    /// <summary>From one vector per condition.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Cumulants Of(Vector256<double> a, Vector256<double> b, Vector256<double> c, Vector256<double> d)
        => new(
            Vector256.Create(a[0], b[0], c[0], d[0]),
            Vector256.Create(a[1], b[1], c[1], d[1]),
            Vector256.Create(a[2], b[2], c[2], d[2]),
            Vector256.Create(a[3], b[3], c[3], d[3]));

    /// <summary>Sum of the products of like cumulants, per condition.</summary>
    public static Vector256<double> Dot(in Cumulants a, in Cumulants b)
        => (a.Mean * b.Mean) + (a.Variance * b.Variance) + (a.Third * b.Third) + (a.Fourth * b.Fourth);
}
