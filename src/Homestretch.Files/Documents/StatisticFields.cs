using Homestretch.Core.Measurement;

namespace Homestretch.Files.Documents;

/// <summary>A figure, or why there is none.</summary>
/// <param name="Value">The figure; null where it is refused.</param>
/// <param name="Refusal">The reason, a sentence; null where there is a figure.</param>
public sealed record StatisticFields(double? Value, string? Refusal)
{
    internal static StatisticFields Of(Statistic statistic) => new(statistic.Value, statistic.Refusal);
}
