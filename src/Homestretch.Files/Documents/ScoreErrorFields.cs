namespace Homestretch.Files.Documents;

/// <summary>Standard error of measurement at one score.</summary>
/// <param name="Correct">Correct answers.</param>
/// <param name="Lord">Lord's binomial error, in items.</param>
/// <param name="Keats">With Keats' correction.</param>
public sealed record ScoreErrorFields(int Correct, double Lord, StatisticFields Keats);
