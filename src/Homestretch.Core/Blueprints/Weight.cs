namespace Homestretch.Core.Blueprints;

/// <summary>A topic's share of its section as published: a number of items, a percentage, or a range of percentages.</summary>
/// <param name="Unit">What <paramref name="Low"/> and <paramref name="High"/> count.</param>
/// <param name="Low">Lower end; the same as <paramref name="High"/> unless a range was published.</param>
/// <param name="High">Upper end.</param>
public readonly record struct Weight(WeightUnit Unit, double Low, double High)
{
    /// <summary>Scored items, as published.</summary>
    public static Weight Items(int items) => new(WeightUnit.Items, items, items);

    /// <summary>Percent of the section's scored items, 0 to 100.</summary>
    public static Weight Percent(double percent) => new(WeightUnit.Percent, percent, percent);

    /// <summary>A published range of percentages; its midpoint counts.</summary>
    public static Weight PercentRange(double low, double high) => new(WeightUnit.Percent, low, high);

    /// <summary>The figure used for apportionment: the midpoint of a range, the figure itself otherwise.</summary>
    public double Midpoint => (Low + High) / 2;
}
