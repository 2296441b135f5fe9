using System.Collections.Immutable;

using Homestretch.Core.Measurement;

namespace Homestretch.Files.Documents;

/// <summary>Whether topics are distinct in the data.</summary>
/// <param name="Summary">The finding, a sentence.</param>
/// <param name="Pairs">Every pair of topics.</param>
/// <param name="Topics">The value of each topic's own score.</param>
public sealed record DimensionFields(string Summary, ImmutableArray<TopicPairFields> Pairs, ImmutableArray<SubscoreFields> Topics)
{
    internal static DimensionFields Of(DimensionReport report) => new(
        report.Summary,
        [.. report.Pairs.Select(p => new TopicPairFields(p.First, p.Second, StatisticFields.Of(p.Observed), StatisticFields.Of(p.Corrected)))],
        [.. report.Topics.Select(SubscoreFields.Of)]);
}
