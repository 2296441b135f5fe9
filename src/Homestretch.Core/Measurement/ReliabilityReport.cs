using System.Collections.Immutable;

namespace Homestretch.Core.Measurement;

/// <summary>How far a score would be the same with other items of the same kind.</summary>
/// <param name="Persons">People behind the figures; with missing answers, behind the thinnest pair of items.</param>
/// <param name="Items">Items in the score.</param>
/// <param name="Mean">Mean number of correct answers.</param>
/// <param name="StandardDeviation">Standard deviation of the number of correct answers.</param>
/// <param name="Alpha">Cronbach's alpha (1951); for right-or-wrong items the same as KR-20.</param>
/// <param name="AlphaInterval">95 % interval of alpha (Feldt 1965); null where alpha is refused.</param>
/// <param name="Kr20">Formula 20 of Kuder and Richardson (1937); refused where not all were given all items.</param>
/// <param name="Kr21">Formula 21: as if all items were equally hard, so a lower bound of formula 20.</param>
/// <param name="SplitHalf">Odd against even items within topics, stepped up to full length (Spearman 1910, Brown 1910).</param>
/// <param name="Guttman">The same halves by Guttman's formula (1945, lambda 4), which does not need equally spread halves.</param>
/// <param name="StandardError">Standard error of measurement, in items.</param>
public sealed record ReliabilityReport(
    int Persons,
    int Items,
    Statistic Mean,
    Statistic StandardDeviation,
    Statistic Alpha,
    StatisticInterval? AlphaInterval,
    Statistic Kr20,
    Statistic Kr21,
    Statistic SplitHalf,
    Statistic Guttman,
    Statistic StandardError)
{
    /// <summary>Standard errors at each number of correct answers; empty for a single item.</summary>
    public ImmutableArray<ScoreError> Errors { get; init; } = [];
}
