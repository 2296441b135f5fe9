namespace Homestretch.Core.Standing;

/// <summary>How fast a person learns, from tests taken after study.</summary>
/// <param name="Median">Median gain per first hour on an average topic, in logits.</param>
/// <param name="Low">5 % quantile.</param>
/// <param name="High">95 % quantile.</param>
/// <param name="AssumedMedian">What was assumed before the tests.</param>
/// <param name="Informed">Share of the doubt (variance of the logarithm) that the tests have taken away, 0 to 1.</param>
public sealed record RateStanding(double Median, double Low, double High, double AssumedMedian, double Informed);
