namespace Homestretch.Core.Standing;

/// <summary>A normal density sampled on a grid's spacing, for smoothing functions on that grid.</summary>
internal sealed class GaussianKernel
{
    private const double CutOffInSds = 8.5;

    private readonly double[] taps;
    private readonly int reach;

    /// <param name="sd">Standard deviation in logits, zero or more.</param>
    /// <param name="step">Spacing of the grid.</param>
    public GaussianKernel(double sd, double step)
    {
        reach = sd <= 0 ? 0 : (int)Math.Ceiling(CutOffInSds * sd / step);
        taps = new double[(2 * reach) + 1];
        double sum = 0;
        for (int i = -reach; i <= reach; i++)
        {
            double z = sd <= 0 ? 0 : i * step / sd;
            sum += taps[i + reach] = Math.Exp(-0.5 * z * z);
        }

        Spans.Divide(taps, sum);
    }

    /// <summary>Weights of a normal density centred on <paramref name="centre"/> at the points <paramref name="start"/>, start + 1, ...; they sum to 1 over the whole line.</summary>
    public void Fill(int centre, int start, Span<double> weights)
    {
        for (int i = 0; i < weights.Length; i++)
        {
            int tap = start + i - centre + reach;
            weights[i] = (uint)tap < (uint)taps.Length ? taps[tap] : 0;
        }
    }

    /// <summary>Sum over the grid of kernel(centre - i) * values[i].</summary>
    public double Weigh(int centre, ReadOnlySpan<double> values)
    {
        int from = Math.Max(0, centre - reach);
        int to = Math.Min(values.Length, centre + reach + 1);
        return Spans.Dot(taps.AsSpan(from - centre + reach, to - from), values[from..to]);
    }

    /// <summary>Smooths a function that can be asked for beyond the stretch it is wanted on.</summary>
    /// <param name="count">Number of points wanted.</param>
    /// <param name="values">The function at 0, 1, ...; the first point wanted lies at <see cref="Reach"/>, and as much is asked for beyond the last one.</param>
    public double[] Smooth(int count, Func<int, double> values)
    {
        double[] wide = new double[count + (2 * reach)];
        for (int i = 0; i < wide.Length; i++)
        {
            wide[i] = values(i);
        }

        double[] smooth = new double[count];
        for (int i = 0; i < count; i++)
        {
            smooth[i] = Spans.Dot(taps, wide.AsSpan(i, taps.Length));
        }

        return smooth;
    }

    /// <summary>Smooths a function that stays at its end values outside the grid, as a likelihood does.</summary>
    public double[] SmoothLevelling(ReadOnlySpan<double> values)
    {
        double[] padded = new double[values.Length + (2 * reach)];
        padded.AsSpan(0, reach).Fill(values[0]);
        values.CopyTo(padded.AsSpan(reach));
        padded.AsSpan(reach + values.Length).Fill(values[^1]);
        double[] smooth = new double[values.Length];
        for (int i = 0; i < smooth.Length; i++)
        {
            smooth[i] = Spans.Dot(taps, padded.AsSpan(i, taps.Length));
        }

        return smooth;
    }

    /// <summary>Smooths a density given on a stretch of the grid; the result is longer by the kernel's reach at both ends.</summary>
    public double[] SmoothWidening(ReadOnlySpan<double> density)
    {
        double[] wide = new double[density.Length + (2 * reach)];
        for (int i = 0; i < density.Length; i++)
        {
            Span<double> target = wide.AsSpan(i, taps.Length);
            Spans.AddScaled(taps, density[i], target);
        }

        return wide;
    }

    /// <summary>How many grid steps the kernel reaches to either side.</summary>
    public int Reach => reach;
}
