namespace Homestretch.Core.Measurement;

/// <summary>Standard error of measurement at one number of correct answers.</summary>
/// <param name="Correct">Correct answers.</param>
/// <param name="Lord">Binomial error (Lord 1955), in items: as if all items were equally hard, so somewhat too large.</param>
/// <param name="Keats">The same, scaled so that its average agrees with the reliability (Keats 1957).</param>
public readonly record struct ScoreError(int Correct, double Lord, Statistic Keats);
