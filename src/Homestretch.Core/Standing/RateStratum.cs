namespace Homestretch.Core.Standing;

/// <summary>What is known of a person if they learn at a given rate.</summary>
/// <param name="Rate">The rate, in logits per first hour on an average topic.</param>
/// <param name="Weight">How likely it is; the strata's weights sum to 1.</param>
/// <param name="Posterior">The posterior of the abilities without study.</param>
/// <param name="Gains">What study has added to each topic by now, in logits.</param>
internal sealed record RateStratum(double Rate, double Weight, AbilityPosterior Posterior, double[] Gains);
