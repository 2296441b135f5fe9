namespace Homestretch.Core.Forecasting;

/// <summary>Where the uncertainty about the number of correct answers comes from: parts of its variance, in items squared, that sum to the whole.</summary>
/// <param name="Ability">What the answers so far leave open about the person's ability: too few of them, and themselves a sample.</param>
/// <param name="Learning">How fast the person learns; 0 without further study.</param>
/// <param name="Form">Whether the tests taken are, as a whole, easier or harder than the exam.</param>
/// <param name="Items">Which items the exam draws on each topic.</param>
/// <param name="Chance">Luck in answering, with ability and items as they are.</param>
/// <remarks>The law of total variance, one source after another: learning, ability, form, items, chance. Each part is what its source adds to the variance of the expected score once
/// those before it are known. What two sources do only together counts with the later one; with spreads as small as these it is little.</remarks>
public sealed record ScoreUncertainty(double Ability, double Learning, double Form, double Items, double Chance)
{
    /// <summary>Variance of the number of correct answers.</summary>
    public double Variance => Ability + Learning + Form + Items + Chance;

    /// <summary>Its standard deviation, in items.</summary>
    public double StandardDeviation => Math.Sqrt(Variance);

    /// <summary>The parts in the order of the parameters, as shares that sum to 1; all of it chance where nothing is uncertain.</summary>
    public double[] Shares => Variance > 0
        ? [Ability / Variance, Learning / Variance, Form / Variance, Items / Variance, Chance / Variance]
        : [0, 0, 0, 0, 1];
}
