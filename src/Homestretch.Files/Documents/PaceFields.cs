namespace Homestretch.Files.Documents;

/// <summary>Whether a person gets through a section at the pace seen.</summary>
/// <param name="Section">The section.</param>
/// <param name="FinishChance">Chance of answering its last item in time.</param>
/// <param name="ExpectedReached">Items expected to be answered in time.</param>
/// <param name="Remark">The finding, a sentence.</param>
public sealed record PaceFields(string Section, StatisticFields FinishChance, StatisticFields ExpectedReached, string Remark);
