using System.Collections.Immutable;

using Homestretch.Core.Measurement;

namespace Homestretch.Files.Documents;

/// <summary>Reliability of a test or a part of it.</summary>
/// <param name="Name">The exam, section or topic.</param>
/// <param name="Persons">People behind the figures.</param>
/// <param name="Items">Items.</param>
/// <param name="Mean">Mean number of correct answers.</param>
/// <param name="StandardDeviation">Standard deviation of the number of correct answers.</param>
/// <param name="Alpha">Cronbach's alpha.</param>
/// <param name="AlphaLow">Lower end of its 95 % interval.</param>
/// <param name="AlphaHigh">Upper end.</param>
/// <param name="Kr20">Formula 20 of Kuder and Richardson.</param>
/// <param name="Kr21">Formula 21.</param>
/// <param name="SplitHalf">Odd against even items, stepped up by Spearman and Brown.</param>
/// <param name="Guttman">The same halves by Guttman's lambda 4.</param>
/// <param name="StandardError">Standard error of measurement, in items.</param>
/// <param name="Errors">Standard errors at each number of correct answers.</param>
/// <param name="Decisions">Pass and fail decisions; null where there is no mark.</param>
public sealed record ReliabilityFields(
    string Name,
    int Persons,
    int Items,
    StatisticFields Mean,
    StatisticFields StandardDeviation,
    StatisticFields Alpha,
    double? AlphaLow,
    double? AlphaHigh,
    StatisticFields Kr20,
    StatisticFields Kr21,
    StatisticFields SplitHalf,
    StatisticFields Guttman,
    StatisticFields StandardError,
    ImmutableArray<ScoreErrorFields> Errors,
    DecisionFields? Decisions)
{
    internal static ReliabilityFields Of(PartReliability part)
    {
        ReliabilityReport report = part.Reliability;
        return new(
            part.Name,
            report.Persons,
            report.Items,
            StatisticFields.Of(report.Mean),
            StatisticFields.Of(report.StandardDeviation),
            StatisticFields.Of(report.Alpha),
            report.AlphaInterval?.Low,
            report.AlphaInterval?.High,
            StatisticFields.Of(report.Kr20),
            StatisticFields.Of(report.Kr21),
            StatisticFields.Of(report.SplitHalf),
            StatisticFields.Of(report.Guttman),
            StatisticFields.Of(report.StandardError),
            [.. report.Errors.Select(e => new ScoreErrorFields(e.Correct, e.Lord, StatisticFields.Of(e.Keats)))],
            part.Classification is { } c ? DecisionFields.Of(c) : null);
    }
}
