using Homestretch.Core.Measurement;

namespace Homestretch.Files.Documents;

/// <summary>Whether a topic's own score says more about the topic than the total does (Haberman).</summary>
/// <param name="Topic">The topic.</param>
/// <param name="Items">Its items.</param>
/// <param name="Reliability">Alpha of its score.</param>
/// <param name="FromOwn">PRMSE from its own score.</param>
/// <param name="FromTotal">PRMSE from the total.</param>
/// <param name="FromBoth">PRMSE from both.</param>
/// <param name="Disjoint">Correlation without error with all other topics; may exceed 1.</param>
/// <param name="AddsValue">Whether its own score foretells more than the total; null where it cannot be said.</param>
/// <param name="Remark">The finding, a sentence.</param>
public sealed record SubscoreFields(
    string Topic,
    int Items,
    StatisticFields Reliability,
    StatisticFields FromOwn,
    StatisticFields FromTotal,
    StatisticFields FromBoth,
    StatisticFields Disjoint,
    bool? AddsValue,
    string Remark)
{
    internal static SubscoreFields Of(SubscoreValue value) => new(
        value.Topic,
        value.Items,
        StatisticFields.Of(value.Reliability),
        StatisticFields.Of(value.FromOwn),
        StatisticFields.Of(value.FromTotal),
        StatisticFields.Of(value.FromBoth),
        StatisticFields.Of(value.Disjoint),
        value.AddsValue,
        value.Remark);
}
