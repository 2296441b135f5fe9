namespace Homestretch.Core.Measurement;

/// <summary>Product-moment correlation of paired values.</summary>
internal static class Correlation
{
    /// <summary>The correlation, or null where fewer than three pairs are there or one side does not vary.</summary>
    public static double? Of(ReadOnlySpan<double> x, ReadOnlySpan<double> y)
    {
        int n = x.Length;
        if (n < 3)
        {
            return null;
        }

        double meanX = 0;
        double meanY = 0;
        for (int i = 0; i < n; i++)
        {
            meanX += x[i] / n;
            meanY += y[i] / n;
        }

        double xx = 0;
        double yy = 0;
        double xy = 0;
        for (int i = 0; i < n; i++)
        {
            xx += (x[i] - meanX) * (x[i] - meanX);
            yy += (y[i] - meanY) * (y[i] - meanY);
            xy += (x[i] - meanX) * (y[i] - meanY);
        }

        // Rounding leaves a trace of variance in constant columns.
        const double Nothing = 1e-12;
        return xx <= Nothing * n || yy <= Nothing * n ? null : Math.Clamp(xy / Math.Sqrt(xx * yy), -1, 1);
    }

    /// <summary>Upper end of the 90 % interval by Fisher's transformation; 1 for fewer than four pairs.</summary>
    public static double Upper(double r, int pairs)
    {
        const double Z90 = 1.6448536269514722;
        return pairs < 4 || Math.Abs(r) >= 1 ? Math.Max(r, pairs < 4 ? 1 : r) : Math.Tanh(Math.Atanh(r) + (Z90 / Math.Sqrt(pairs - 3)));
    }
}
