using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace Homestretch.Core.Standing;

/// <summary>The few vector operations that the model's inner loops are made of.</summary>
/// <remarks>A general library of such operations costs a program that answers once more time to compile than the answer takes;
/// docs/decisions/0001 has the figures. The loops that matter are compiled with full optimisation at their first call.</remarks>
internal static class Spans
{
    /// <summary>Sum of a[i] * b[i].</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        CheckLength(a.Length, b.Length);
        int width = Vector<double>.Count;
        ref double x = ref MemoryMarshal.GetReference(a);
        ref double y = ref MemoryMarshal.GetReference(b);
        Vector<double> even = Vector<double>.Zero;
        Vector<double> odd = Vector<double>.Zero;
        int i = 0;
        for (; i <= a.Length - (2 * width); i += 2 * width)
        {
            even += Vector.LoadUnsafe(ref x, (nuint)i) * Vector.LoadUnsafe(ref y, (nuint)i);
            odd += Vector.LoadUnsafe(ref x, (nuint)(i + width)) * Vector.LoadUnsafe(ref y, (nuint)(i + width));
        }

        double sum = Vector.Sum(even + odd);
        for (; i < a.Length; i++)
        {
            sum += a[i] * b[i];
        }

        return sum;
    }

    /// <summary>target[i] += a[i] * scale.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void AddScaled(ReadOnlySpan<double> a, double scale, Span<double> target)
    {
        CheckLength(a.Length, target.Length);
        int width = Vector<double>.Count;
        ref double x = ref MemoryMarshal.GetReference(a);
        ref double y = ref MemoryMarshal.GetReference(target);
        Vector<double> factor = new(scale);
        int i = 0;
        for (; i <= a.Length - width; i += width)
        {
            Vector<double> sum = Vector.LoadUnsafe(ref y, (nuint)i) + (Vector.LoadUnsafe(ref x, (nuint)i) * factor);
            sum.StoreUnsafe(ref y, (nuint)i);
        }

        for (; i < a.Length; i++)
        {
            target[i] += a[i] * scale;
        }
    }

    /// <summary>target[i] += (a[i] - target[i]) * share[i].</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Mix(ReadOnlySpan<double> a, ReadOnlySpan<double> share, Span<double> target)
    {
        CheckLength(a.Length, share.Length);
        CheckLength(a.Length, target.Length);
        int width = Vector<double>.Count;
        ref double x = ref MemoryMarshal.GetReference(a);
        ref double y = ref MemoryMarshal.GetReference(share);
        ref double z = ref MemoryMarshal.GetReference(target);
        int i = 0;
        for (; i <= a.Length - width; i += width)
        {
            Vector<double> old = Vector.LoadUnsafe(ref z, (nuint)i);
            (old + ((Vector.LoadUnsafe(ref x, (nuint)i) - old) * Vector.LoadUnsafe(ref y, (nuint)i))).StoreUnsafe(ref z, (nuint)i);
        }

        for (; i < a.Length; i++)
        {
            target[i] += (a[i] - target[i]) * share[i];
        }
    }

    /// <summary>target[i] = a[i] * b[i] * scale.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Product(ReadOnlySpan<double> a, ReadOnlySpan<double> b, double scale, Span<double> target)
    {
        CheckLength(a.Length, b.Length);
        CheckLength(a.Length, target.Length);
        int width = Vector<double>.Count;
        ref double x = ref MemoryMarshal.GetReference(a);
        ref double y = ref MemoryMarshal.GetReference(b);
        ref double z = ref MemoryMarshal.GetReference(target);
        Vector<double> factor = new(scale);
        int i = 0;
        for (; i <= a.Length - width; i += width)
        {
            (Vector.LoadUnsafe(ref x, (nuint)i) * Vector.LoadUnsafe(ref y, (nuint)i) * factor).StoreUnsafe(ref z, (nuint)i);
        }

        for (; i < a.Length; i++)
        {
            target[i] = a[i] * b[i] * scale;
        }
    }

    /// <summary>target[i] = a[i] * b[i].</summary>
    public static void Multiply(ReadOnlySpan<double> a, ReadOnlySpan<double> b, Span<double> target) => Product(a, b, 1, target);

    /// <summary>Divides every value by <paramref name="divisor"/>.</summary>
    public static void Divide(Span<double> values, double divisor)
    {
        for (int i = 0; i < values.Length; i++)
        {
            values[i] /= divisor;
        }
    }

    /// <summary>target[i] += a[i].</summary>
    public static void Add(ReadOnlySpan<double> a, Span<double> target) => AddScaled(a, 1, target);

    /// <summary>Sum of all values.</summary>
    public static double Sum(ReadOnlySpan<double> values)
    {
        double sum = 0;
        foreach (double value in values)
        {
            sum += value;
        }

        return sum;
    }

    /// <summary>Largest of at least one value.</summary>
    public static double Max(ReadOnlySpan<double> values) => values[IndexOfMax(values)];

    /// <summary>Index of the first largest of at least one value.</summary>
    public static int IndexOfMax(ReadOnlySpan<double> values)
    {
        int best = 0;
        for (int i = 1; i < values.Length; i++)
        {
            if (values[i] > values[best])
            {
                best = i;
            }
        }

        return best;
    }

    /// <summary>Exponentials of logarithms, scaled so that they sum to 1.</summary>
    public static void Normalise(ReadOnlySpan<double> logs, Span<double> weights)
    {
        ExpFromMax(logs, weights);
        Divide(weights, Sum(weights));
    }

    /// <summary>Exponentials of logarithms, scaled so that the largest is 1.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void ExpFromMax(ReadOnlySpan<double> logs, Span<double> values)
    {
        CheckLength(logs.Length, values.Length);
        double top = Max(logs);
        int width = Vector<double>.Count;
        Vector<double> most = new(top);
        ref double x = ref MemoryMarshal.GetReference(logs);
        ref double y = ref MemoryMarshal.GetReference(values);
        int i = 0;
        for (; i <= logs.Length - width; i += width)
        {
            Vector.Exp(Vector.LoadUnsafe(ref x, (nuint)i) - most).StoreUnsafe(ref y, (nuint)i);
        }

        for (; i < logs.Length; i++)
        {
            values[i] = Math.Exp(logs[i] - top);
        }
    }

    private static void CheckLength(int length, int other)
    {
        if (length != other)
        {
            throw new ArgumentException($"Lengths differ: {length} and {other}.");
        }
    }
}
