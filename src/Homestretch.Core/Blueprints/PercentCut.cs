namespace Homestretch.Core.Blueprints;

/// <summary>Pass mark as a percentage of the scored items.</summary>
/// <param name="Percent">Above 0, at most 100.</param>
public sealed record PercentCut(double Percent) : CutScore
{
    // 70 % of 60 must be 42, also where 0.7 * 60 is a hair above 42 in binary.
    private const double Rounding = 1e-9;

    /// <inheritdoc/>
    public override int RequiredCorrect(int items) => Math.Clamp((int)Math.Ceiling((Percent / 100 * items) - Rounding), 0, items + 1);
}
