using System.Collections.Immutable;

using Homestretch.Core.Measurement;

namespace Homestretch.Files.Documents;

/// <summary>How one item worked.</summary>
/// <param name="Item">Its label.</param>
/// <param name="Topic">Its topic.</param>
/// <param name="Key">The correct option, where known.</param>
/// <param name="Given">People whose test held it.</param>
/// <param name="Answered">People who answered it.</param>
/// <param name="Omitted">People who left it blank and went on.</param>
/// <param name="NotReached">People who did not get as far.</param>
/// <param name="Right">Correct answers.</param>
/// <param name="Difficulty">p-value among those who reached it; high is easy.</param>
/// <param name="Discrimination">Corrected point-biserial correlation.</param>
/// <param name="Biserial">Corrected biserial correlation.</param>
/// <param name="UpperLower">p-value of the best 27 % less that of the lowest 27 %.</param>
/// <param name="Options">The distractor table.</param>
/// <param name="Concerns">Words for what is odd about it.</param>
/// <param name="Remarks">The same in sentences.</param>
public sealed record ItemFields(
    string Item,
    string Topic,
    string? Key,
    int Given,
    int Answered,
    int Omitted,
    int NotReached,
    int Right,
    StatisticFields Difficulty,
    StatisticFields Discrimination,
    StatisticFields Biserial,
    StatisticFields UpperLower,
    ImmutableArray<OptionFields> Options,
    ImmutableArray<string> Concerns,
    ImmutableArray<string> Remarks)
{
    internal static ItemFields Of(ItemReport report) => new(
        report.Item.Label,
        report.Item.Topic,
        report.Item.Key,
        report.Given,
        report.Answered,
        report.Omitted,
        report.NotReached,
        report.Right,
        StatisticFields.Of(report.Difficulty),
        StatisticFields.Of(report.Discrimination),
        StatisticFields.Of(report.Biserial),
        StatisticFields.Of(report.UpperLower),
        [.. report.Options.Select(OptionFields.Of)],
        [.. report.Concerns.Select(Words.Of)],
        report.Remarks);
}
