using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

using Homestretch.Core.Standing;

namespace Homestretch.Core.Forecasting;

/// <summary>Cumulants of one topic's correct answers for each ability node, tabulated over what form and study add to ability. Knots are computed when first needed.</summary>
internal sealed class TopicCumulants(int items)
{
    private CurveMoments curve = null!;
    private double[] weights = [];
    private int[] starts = [];
    private int[] offsets = [];
    private int stride;
    private int knotStride;
    private int lowestKnot;
    private int knots;
    private int filled;
    private int nodes;
    private Vector256<double>[] table = [];

    public void Load(AbilityPosterior posterior, int topic, ReadOnlySpan<int> kept, CurveMoments chances, int lowest, int count, int perKnot, double spacingInSds, double negligible)
    {
        curve = chances;
        lowestKnot = lowest;
        knotStride = perKnot;
        knots = count;
        nodes = kept.Length;
        filled = 0;
        if (starts.Length < nodes)
        {
            starts = new int[nodes];
            offsets = new int[nodes + 1];
        }

        if (table.Length < nodes * knots)
        {
            table = new Vector256<double>[nodes * knots];
        }

        stride = Stride(posterior.Conditional(topic, kept[nodes / 2]).Density.AsSpan(), spacingInSds);
        for (int k = 0; k < nodes; k++)
        {
            ConditionalAbility conditional = posterior.Conditional(topic, kept[k]);
            Thin(conditional.Density.AsSpan(), conditional.Start, k, negligible);
        }
    }

    /// <summary>Cumulants at one place among the knots.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<double> At(int node, double place)
    {
        int knot = Knot(place, out double u);
        ref Vector256<double> from = ref table[(knot * nodes) + node];
        double v = u * u;
        double w = v * u;

        // Cubic through four knots with the slopes of their neighbours (Catmull & Rom 1974).
        return (from * ((v - (0.5 * (w + u)))))
            + (Unsafe.Add(ref from, nodes) * ((1.5 * w) - (2.5 * v) + 1))
            + (Unsafe.Add(ref from, 2 * nodes) * ((2 * v) - (1.5 * w) + (0.5 * u)))
            + (Unsafe.Add(ref from, 3 * nodes) * (0.5 * (w - v)));
    }

    /// <summary>Rise of the cumulants per knot.</summary>
    public Vector256<double> Rise(int node, double place)
    {
        int knot = Knot(place, out double u);
        ref Vector256<double> from = ref table[(knot * nodes) + node];
        double v = u * u;
        return (from * ((2 * u) - (1.5 * v) - 0.5))
            + (Unsafe.Add(ref from, nodes) * ((4.5 * v) - (5 * u)))
            + (Unsafe.Add(ref from, 2 * nodes) * ((4 * u) - (4.5 * v) + 0.5))
            + (Unsafe.Add(ref from, 3 * nodes) * ((1.5 * v) - u));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private int Knot(double place, out double u)
    {
        int knot = Math.Clamp((int)place, 1, knots - 3);
        u = Math.Clamp(place - knot, 0, 1);
        if (knot + 3 > filled)
        {
            Extend(knot + 3);
        }

        return knot - 1;
    }

    private void Extend(int upTo)
    {
        for (; filled < upTo; filled++)
        {
            for (int k = 0; k < nodes; k++)
            {
                table[(filled * nodes) + k] = curve.CountCumulants(
                    items,
                    weights.AsSpan(offsets[k], offsets[k + 1] - offsets[k]),
                    starts[k] + ((lowestKnot + filled) * knotStride),
                    stride);
            }
        }
    }

    private static int Stride(ReadOnlySpan<double> density, double spacingInSds)
    {
        double mean = 0;
        double square = 0;
        for (int i = 0; i < density.Length; i++)
        {
            mean += density[i] * i;
            square += density[i] * i * i;
        }

        return Math.Max(1, (int)(spacingInSds * Math.Sqrt(Math.Max(0, square - (mean * mean)))));
    }

    // Keeps every stride-th point where there is weight to speak of.
    private void Thin(ReadOnlySpan<double> density, int start, int k, double negligible)
    {
        int mode = Spans.IndexOfMax(density);
        double floor = negligible * density[mode];
        int first = mode;
        while (first - stride >= 0 && density[first - stride] > floor)
        {
            first -= stride;
        }

        int offset = offsets[k];
        double sum = 0;
        int last = first;
        for (int i = first; i < density.Length && (i <= mode || density[i] > floor); i += stride)
        {
            sum += density[i];
            last = i;
        }

        int count = ((last - first) / stride) + 1;
        if (weights.Length < offset + count)
        {
            Array.Resize(ref weights, 2 * (offset + count));
        }

        for (int i = 0; i < count; i++)
        {
            weights[offset + i] = density[first + (i * stride)] / sum;
        }

        starts[k] = start + first;
        offsets[k + 1] = offset + count;
    }
}
