namespace Homestretch.Core.Blueprints;

/// <summary>Pass mark as a number of correct answers.</summary>
/// <param name="Correct">Correct answers needed, one or more.</param>
public sealed record CorrectCut(int Correct) : CutScore
{
    /// <inheritdoc/>
    public override int RequiredCorrect(int items) => Math.Min(Correct, items + 1);
}
