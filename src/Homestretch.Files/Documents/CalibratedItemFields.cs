using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

namespace Homestretch.Files.Documents;

/// <summary>One calibrated item. Standard errors are null where a parameter was not estimated or the answers do not give one.</summary>
/// <param name="Item">Its label.</param>
/// <param name="Topic">Its topic.</param>
/// <param name="Reached">People who reached it.</param>
/// <param name="Difficulty">b, in logits.</param>
/// <param name="DifficultyError">Its standard error.</param>
/// <param name="Discrimination">a, the slope; 1 by definition for <c>rasch</c>.</param>
/// <param name="DiscriminationError">Its standard error.</param>
/// <param name="Guessing">c, the chance of somebody who knows nothing; 0 by definition but for <c>3pl</c>.</param>
/// <param name="GuessingError">Its standard error.</param>
/// <param name="Answers">Whether the answers follow the curve: <c>follows</c>, <c>doubtful</c> (p below 0.05), <c>strays</c> (below 0.01) or <c>unknown</c>.</param>
/// <param name="FitStatistic">S-X2; null where nobody answered every item.</param>
/// <param name="FitDegrees">Its degrees of freedom.</param>
/// <param name="FitProbability">Chance of a statistic at least as large if the curve holds; null without degrees of freedom.</param>
/// <param name="Infit">Information-weighted mean square; null but for <c>rasch</c>.</param>
/// <param name="Outfit">Unweighted mean square; null but for <c>rasch</c>.</param>
public sealed record CalibratedItemFields(
    string Item,
    string Topic,
    int Reached,
    double Difficulty,
    double? DifficultyError,
    double Discrimination,
    double? DiscriminationError,
    double Guessing,
    double? GuessingError,
    string Answers,
    double? FitStatistic,
    int? FitDegrees,
    double? FitProbability,
    double? Infit,
    double? Outfit)
{
    internal static CalibratedItemFields Of(CalibratedItem item)
    {
        ItemCurve curve = item.Estimate.Curve;
        ItemCurveErrors errors = item.Estimate.Errors;
        return new(
            item.Item.Label,
            item.Item.Topic,
            item.Reached,
            curve.Difficulty,
            errors.Difficulty,
            curve.Discrimination,
            errors.Discrimination,
            curve.Guessing,
            errors.Guessing,
            Words.Of(item.Verdict),
            item.Fit?.Statistic,
            item.Fit?.DegreesOfFreedom,
            item.Fit?.Probability,
            item.Residuals?.Infit,
            item.Residuals?.Outfit);
    }
}
