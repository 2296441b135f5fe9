namespace Homestretch.Core.Forecasting;

/// <summary>What a change of effort on one topic does.</summary>
/// <param name="Pass">Difference in pass chance, as a positive number.</param>
/// <param name="Score">Difference in expected correct answers, as a positive number.</param>
public readonly record struct EffortChange(double Pass, double Score);
