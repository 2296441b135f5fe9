using System.Collections.Immutable;

namespace Homestretch.Core.Measurement;

/// <summary>Rasch difficulties by conditional maximum likelihood: nothing is assumed about the abilities.</summary>
/// <param name="Items">Estimates; difficulties sum to 0.</param>
/// <param name="LeftOut">Items that could not be calibrated.</param>
/// <param name="Persons">Persons whose answers carry information: some right and some wrong.</param>
/// <param name="LogLikelihood">Log-likelihood given every person's score.</param>
/// <param name="FreeParameters">Parameters estimated.</param>
/// <param name="Convergence">How the estimation ended.</param>
public sealed record ConditionalCalibration(
    ImmutableArray<ItemEstimate> Items,
    ImmutableArray<LeftOutItem> LeftOut,
    int Persons,
    double LogLikelihood,
    int FreeParameters,
    Convergence Convergence);
