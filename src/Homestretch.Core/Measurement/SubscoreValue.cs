namespace Homestretch.Core.Measurement;

/// <summary>Whether a topic's own score says more about the topic than the total does (Haberman 2008).</summary>
/// <param name="Topic">The topic.</param>
/// <param name="Items">Its items on the test.</param>
/// <param name="Reliability">Alpha of its score.</param>
/// <param name="FromOwn">PRMSE from its own score: share of the variance of true topic scores it foretells.</param>
/// <param name="FromTotal">PRMSE from the total.</param>
/// <param name="FromBoth">PRMSE from both together.</param>
/// <param name="Disjoint">Correlation without error between the topic and all other topics.</param>
/// <param name="AddsValue">Whether its own score foretells more than the total; null where it cannot be said.</param>
/// <param name="Remark">The finding as a sentence.</param>
public sealed record SubscoreValue(
    string Topic,
    int Items,
    Statistic Reliability,
    Statistic FromOwn,
    Statistic FromTotal,
    Statistic FromBoth,
    Statistic Disjoint,
    bool? AddsValue,
    string Remark);
