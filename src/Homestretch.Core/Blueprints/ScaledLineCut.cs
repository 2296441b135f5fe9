namespace Homestretch.Core.Blueprints;

/// <summary>Pass mark on a reporting scale that rises in a straight line with the correct answers.</summary>
/// <param name="AtLeast">Scaled score needed.</param>
/// <param name="AtZero">Scaled score for no correct answer.</param>
/// <param name="AtAll">Scaled score for every scored item correct; above <paramref name="AtZero"/>.</param>
public sealed record ScaledLineCut(double AtLeast, double AtZero, double AtAll) : CutScore
{
    private const double Rounding = 1e-9;

    /// <inheritdoc/>
    public override int RequiredCorrect(int items)
    {
        double share = (AtLeast - AtZero) / (AtAll - AtZero);
        return Math.Clamp((int)Math.Ceiling((share * items) - Rounding), 0, items + 1);
    }
}
