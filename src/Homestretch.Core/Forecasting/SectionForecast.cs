using System.Collections.Immutable;

using Homestretch.Core.Blueprints;

namespace Homestretch.Core.Forecasting;

/// <summary>What to expect on one section.</summary>
/// <param name="Section">The section.</param>
/// <param name="PassChance">Chance of reaching the section's own cut score; null where it has none.</param>
/// <param name="ExpectedCorrect">Expected correct answers.</param>
/// <param name="Cut">Correct answers needed in the section; null where it has no cut score.</param>
/// <param name="Distribution">Chance of exactly 0, 1, ... N correct answers; sums to 1.</param>
public sealed record SectionForecast(Section Section, double? PassChance, double ExpectedCorrect, int? Cut, ImmutableArray<double> Distribution);
