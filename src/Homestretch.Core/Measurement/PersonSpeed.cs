namespace Homestretch.Core.Measurement;

/// <summary>How fast one person works, under the log-normal model.</summary>
/// <param name="Person">The person.</param>
/// <param name="Times">Times it rests on.</param>
/// <param name="Speed">Speed on the log scale: 0 is average, 0.7 is twice as fast. Posterior mean.</param>
/// <param name="Error">Posterior standard deviation.</param>
public readonly record struct PersonSpeed(string Person, int Times, double Speed, double Error);
