namespace Homestretch.Core.Standing;

/// <summary>Equally spaced abilities, wide enough that nothing of weight lies outside.</summary>
/// <remarks>On such a grid the trapezoidal rule is accurate beyond all need for smooth integrands that vanish at both ends:
/// its error falls like exp(-2 (pi sd / step)^2) for a bell of width sd (Trefethen &amp; Weideman, SIAM Review 56, 2014).</remarks>
public readonly record struct AbilityGrid
{
    /// <summary>Half the width of the grid in logits: more than seven prior standard deviations of a topic.</summary>
    public const double HalfWidth = 8;

    private const double CoarsestStep = 0.1;

    // A likelihood from n items is no narrower than 2 / sqrt(n); steps of 0.6 of that keep the error below 1e-20.
    private const double StepInWidths = 0.6;

    private AbilityGrid(double origin, double step, int count)
    {
        Origin = origin;
        Step = step;
        Count = count;
    }

    /// <summary>Lowest ability.</summary>
    public double Origin { get; }

    /// <summary>Distance between neighbours.</summary>
    public double Step { get; }

    /// <summary>Number of points.</summary>
    public int Count { get; }

    /// <summary>The ability at one point.</summary>
    public double this[int index] => Origin + (index * Step);

    /// <summary>A grid about <paramref name="centre"/> with points <paramref name="step"/> apart: half the width is a multiple of it.</summary>
    internal static AbilityGrid WithStep(double centre, double step) => new(centre - HalfWidth, step, (int)Math.Round(2 * HalfWidth / step) + 1);

    /// <summary>How much of the cell about a point, half a step to either side, lies below <paramref name="ability"/>: 0 to 1.</summary>
    public double PartBelow(int index, double ability) => Math.Clamp(((ability - this[index]) / Step) + 0.5, 0, 1);

    /// <summary>A grid about <paramref name="centre"/>, fine enough for evidence of up to <paramref name="mostItems"/> items on one topic.</summary>
    public static AbilityGrid For(double centre, int mostItems)
    {
        double step = CoarsestStep;
        double needed = mostItems == 0 ? step : StepInWidths * 2 / Math.Sqrt(mostItems);
        while (step > needed)
        {
            step /= 2;
        }

        return new AbilityGrid(centre - HalfWidth, step, (int)Math.Round(2 * HalfWidth / step) + 1);
    }
}
