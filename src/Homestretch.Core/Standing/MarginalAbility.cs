using MathNet.Numerics.Interpolation;

namespace Homestretch.Core.Standing;

/// <summary>A smooth posterior of one ability, made from its values on the grid: chances and quantiles between the grid points.</summary>
/// <remarks>The log density is close to a parabola, so a cubic spline through it is accurate to about 1e-7 at the grid's step;
/// its exponential is then summed by Simpson's rule.</remarks>
internal sealed class MarginalAbility
{
    private const int StepsPerCell = 4;
    private const double Negligible = 1e-12;

    private readonly double origin;
    private readonly double step;
    private readonly double[] cumulative;
    private readonly CubicSpline logDensity;
    private readonly double total;

    public MarginalAbility(ReadOnlySpan<double> marginal, AbilityGrid grid)
    {
        double top = 0;
        foreach (double value in marginal)
        {
            top = Math.Max(top, value);
        }

        int first = 0;
        while (marginal[first] < Negligible * top)
        {
            first++;
        }

        int last = marginal.Length - 1;
        while (marginal[last] < Negligible * top)
        {
            last--;
        }

        double[] x = new double[last - first + 1];
        double[] y = new double[x.Length];
        double mean = 0;
        for (int i = 0; i < x.Length; i++)
        {
            x[i] = grid[first + i];
            y[i] = Math.Log(marginal[first + i]);
            mean += marginal[first + i] * x[i];
        }

        logDensity = CubicSpline.InterpolateNaturalSorted(x, y);
        MeanAbility = mean;
        origin = x[0];
        step = grid.Step / StepsPerCell;
        cumulative = new double[((x.Length - 1) * StepsPerCell) + 1];
        double left = Math.Exp(y[0]);
        for (int i = 1; i < cumulative.Length; i++)
        {
            double at = origin + (i * step);
            double middle = Density(at - (step / 2));
            double right = Density(at);
            cumulative[i] = cumulative[i - 1] + (step / 6 * (left + (4 * middle) + right));
            left = right;
        }

        total = cumulative[^1];
    }

    /// <summary>Posterior mean in logits.</summary>
    public double MeanAbility { get; }

    /// <summary>Chance that the ability is below <paramref name="theta"/>.</summary>
    public double ChanceBelow(double theta)
    {
        double position = (theta - origin) / step;
        if (position <= 0)
        {
            return 0;
        }

        int cell = (int)position;
        if (cell >= cumulative.Length - 1)
        {
            return 1;
        }

        double from = origin + (cell * step);
        double width = theta - from;
        double part = width / 6 * (Density(from) + (4 * Density(from + (width / 2))) + Density(theta));
        return Math.Clamp((cumulative[cell] + part) / total, 0, 1);
    }

    /// <summary>The ability below which the chance is <paramref name="chance"/>, 0 to 1.</summary>
    public double Quantile(double chance)
    {
        double low = origin;
        double high = origin + ((cumulative.Length - 1) * step);
        while (high - low > 1e-9)
        {
            double middle = (low + high) / 2;
            if (ChanceBelow(middle) < chance)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        return (low + high) / 2;
    }

    private double Density(double theta) => Math.Exp(logDensity.Interpolate(theta));
}
