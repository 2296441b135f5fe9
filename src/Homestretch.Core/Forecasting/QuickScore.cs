namespace Homestretch.Core.Forecasting;

/// <summary>What a <see cref="QuickScoreModel"/> expects.</summary>
/// <param name="Pass">Chance of passing, 0 to 1.</param>
/// <param name="Correct">Expected correct answers in all.</param>
public readonly record struct QuickScore(double Pass, double Correct);
