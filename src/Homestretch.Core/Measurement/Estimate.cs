namespace Homestretch.Core.Measurement;

/// <summary>An estimate and its standard error.</summary>
/// <param name="Value">The estimate.</param>
/// <param name="StandardError">Its standard error; positive infinity where the data do not determine it.</param>
public readonly record struct Estimate(double Value, double StandardError);
