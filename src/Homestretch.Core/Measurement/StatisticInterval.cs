namespace Homestretch.Core.Measurement;

/// <summary>A confidence interval of a statistic.</summary>
/// <param name="Low">Lower end.</param>
/// <param name="High">Upper end.</param>
public readonly record struct StatisticInterval(double Low, double High);
