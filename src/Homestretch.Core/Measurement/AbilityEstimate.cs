namespace Homestretch.Core.Measurement;

/// <summary>A person's ability, in logits, on the scale of the items' difficulties.</summary>
/// <param name="Ability">The estimate.</param>
/// <param name="Error">Its standard error: a posterior standard deviation for EAP, one over the root of the information for WLE.</param>
public readonly record struct AbilityEstimate(double Ability, double Error);
