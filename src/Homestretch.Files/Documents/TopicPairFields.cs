namespace Homestretch.Files.Documents;

/// <summary>How far two topics go together.</summary>
/// <param name="First">One topic.</param>
/// <param name="Second">The other.</param>
/// <param name="Observed">Correlation of the two scores.</param>
/// <param name="Corrected">The same without measurement error; may exceed 1.</param>
public sealed record TopicPairFields(string First, string Second, StatisticFields Observed, StatisticFields Corrected);
