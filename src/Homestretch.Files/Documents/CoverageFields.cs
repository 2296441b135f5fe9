using Homestretch.Core.Measurement;

namespace Homestretch.Files.Documents;

/// <summary>A test's items on one topic against the blueprint.</summary>
/// <param name="Topic">The topic.</param>
/// <param name="Items">Items on the test.</param>
/// <param name="Expected">Items by the blueprint's share.</param>
/// <param name="HalfWidth">Half the 90 % interval of a share correct of 60 % on so many items.</param>
/// <param name="Verdict">missing, too-few, fair or over-sampled.</param>
/// <param name="Remark">A sentence; null where the coverage is fair.</param>
/// <param name="FurtherItems">Items that would settle the topic for half of those whose plan turns on it; 0 where nobody's does, null where more than can be asked for.</param>
/// <param name="FurtherCandidates">People whose plan turns on the topic and who are not settled on it.</param>
public sealed record CoverageFields(
    string Topic, int Items, int Expected, StatisticFields HalfWidth, string Verdict, string? Remark, int? FurtherItems, int FurtherCandidates)
{
    internal static CoverageFields Of(TopicCoverage coverage, TopicFurtherItems? further) => new(
        coverage.Topic.Name,
        coverage.Items,
        coverage.Expected,
        StatisticFields.Of(coverage.HalfWidth),
        Words.Of(coverage.Verdict),
        coverage.Remark.Length > 0 ? coverage.Remark : null,
        further is null ? 0 : further.Items,
        further?.Candidates ?? 0);
}
