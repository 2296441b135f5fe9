namespace Homestretch.Core.Measurement;

/// <summary>How far two topics go together.</summary>
/// <param name="First">One topic.</param>
/// <param name="Second">The other.</param>
/// <param name="Observed">Correlation of the two numbers of correct answers.</param>
/// <param name="Corrected">The same without measurement error (Spearman 1904): observed over the root of both reliabilities; may exceed 1.</param>
public sealed record TopicPair(string First, string Second, Statistic Observed, Statistic Corrected);
