namespace Homestretch.Files.Documents;

/// <summary>One model tried on a test's answers.</summary>
/// <param name="Model"><c>rasch</c>, <c>2pl</c> or <c>3pl</c>.</param>
/// <param name="Parameters">Parameters estimated; null, as all figures are, where the answers cannot carry the model.</param>
/// <param name="LogLikelihood">Marginal log-likelihood, priors not counted.</param>
/// <param name="Aic">Akaike's criterion: smaller is better.</param>
/// <param name="Bic">Schwarz's criterion: smaller is better.</param>
/// <param name="Refusal">Why the answers cannot carry the model, a sentence; null where they can.</param>
public sealed record ModelTrialFields(string Model, int? Parameters, double? LogLikelihood, double? Aic, double? Bic, string? Refusal);
