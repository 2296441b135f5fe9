using Homestretch.Core.Forecasting;

namespace Homestretch.Files.Documents;

/// <summary>Where the uncertainty about the number of correct answers comes from: shares of its variance that sum to 1.</summary>
/// <param name="StandardDeviation">Of the number of correct answers, in items.</param>
/// <param name="Ability">What the answers so far leave open about ability.</param>
/// <param name="Learning">How fast study works; 0 without study.</param>
/// <param name="Form">Whether the tests taken were easier or harder than the exam.</param>
/// <param name="Items">Which items the exam draws on each topic.</param>
/// <param name="Chance">Luck in answering.</param>
public sealed record UncertaintyFields(double StandardDeviation, double Ability, double Learning, double Form, double Items, double Chance)
{
    /// <summary>The fields of a split.</summary>
    public static UncertaintyFields Of(ScoreUncertainty uncertainty)
    {
        ArgumentNullException.ThrowIfNull(uncertainty);
        double[] shares = uncertainty.Shares;
        return new(uncertainty.StandardDeviation, shares[0], shares[1], shares[2], shares[3], shares[4]);
    }
}
