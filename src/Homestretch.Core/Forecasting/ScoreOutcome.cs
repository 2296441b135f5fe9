namespace Homestretch.Core.Forecasting;

/// <summary>Distributions of correct answers and what follows from them.</summary>
/// <param name="PassChance">Chance of passing under the exam's rule.</param>
/// <param name="Total">Chance of exactly 0, 1, ... correct answers in all.</param>
/// <param name="Sections">The same per section.</param>
/// <param name="SectionPassChances">Chance of reaching each section's own minimum; 1 where it has none.</param>
/// <param name="TopicExpected">Expected correct answers per topic.</param>
public sealed record ScoreOutcome(
    double PassChance,
    IReadOnlyList<double> Total,
    IReadOnlyList<double[]> Sections,
    IReadOnlyList<double> SectionPassChances,
    IReadOnlyList<double> TopicExpected)
{
    /// <summary>Expected correct answers in all.</summary>
    public double ExpectedCorrect => TopicExpected.Sum();
}
