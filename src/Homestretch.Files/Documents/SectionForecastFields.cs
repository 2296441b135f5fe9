using System.Collections.Immutable;

namespace Homestretch.Files.Documents;

/// <summary>What to expect on one section.</summary>
/// <param name="Name">The section.</param>
/// <param name="PassChance">Chance of reaching its own cut score, 0 to 1; null where it has none.</param>
/// <param name="ExpectedCorrect">Expected correct answers.</param>
/// <param name="ScoredItems">Its scored items.</param>
/// <param name="Cut">Correct answers needed in it; null where it has no cut score.</param>
/// <param name="Distribution">Chance of exactly 0, 1, ... N correct answers; sums to 1.</param>
public sealed record SectionForecastFields(
    string Name,
    double? PassChance,
    double ExpectedCorrect,
    int ScoredItems,
    int? Cut,
    ImmutableArray<double> Distribution);
