using System.Collections.Immutable;

using Homestretch.Core.Standing;

namespace Homestretch.Core.Measurement;

/// <summary>Items calibrated by marginal maximum likelihood, with abilities normal about zero.</summary>
/// <param name="Model">The model fitted.</param>
/// <param name="Items">Estimates, in the order of the data's columns without the items left out.</param>
/// <param name="LeftOut">Items that could not be calibrated.</param>
/// <param name="Persons">Persons with at least one answer.</param>
/// <param name="AbilitySd">Standard deviation of ability in logits: estimated in the Rasch model, 1 by definition in the others.</param>
/// <param name="AbilitySdError">Standard error of <paramref name="AbilitySd"/>; null where it is not estimated or the data do not give one.</param>
/// <param name="LogLikelihood">Marginal log-likelihood of the answers, priors not counted.</param>
/// <param name="FreeParameters">Parameters estimated.</param>
/// <param name="ErrorsFrom">Where the standard errors come from.</param>
/// <param name="Convergence">How the estimation ended.</param>
/// <param name="Notes">What a reader should know, in plain sentences; empty when nothing.</param>
public sealed record MarginalCalibration(
    ItemModel Model,
    ImmutableArray<ItemEstimate> Items,
    ImmutableArray<LeftOutItem> LeftOut,
    int Persons,
    double AbilitySd,
    double? AbilitySdError,
    double LogLikelihood,
    int FreeParameters,
    ErrorSource ErrorsFrom,
    Convergence Convergence,
    ImmutableArray<string> Notes)
{
    /// <summary>Akaike's criterion: smaller is better.</summary>
    public double Aic => (-2 * LogLikelihood) + (2 * FreeParameters);

    /// <summary>Schwarz's criterion: smaller is better; asks more of further parameters the more persons there are.</summary>
    public double Bic => (-2 * LogLikelihood) + (Math.Log(Persons) * FreeParameters);
}
