namespace Homestretch.Core.Measurement;

/// <summary>How well one item's answers follow its curve, by the S-X2 statistic of Orlando and Thissen (2000).</summary>
/// <param name="Item">Its label.</param>
/// <param name="Statistic">Sum of squared differences between expected and seen shares correct over groups of equal total score.</param>
/// <param name="DegreesOfFreedom">Groups less the item's free parameters; the statistic says nothing when this is below 1.</param>
/// <param name="Probability">Chance of a statistic at least as large if the model holds; null without degrees of freedom.</param>
public sealed record ItemFit(string Item, double Statistic, int DegreesOfFreedom, double? Probability);
