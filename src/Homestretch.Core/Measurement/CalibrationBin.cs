namespace Homestretch.Core.Measurement;

/// <summary>One row of a reliability table: forecasts between two edges and what became of them.</summary>
/// <param name="From">Lowest pass chance in the row.</param>
/// <param name="To">Highest.</param>
/// <param name="Count">Forecasts in it.</param>
/// <param name="MeanForecast">Their mean.</param>
/// <param name="Observed">Share of them that passed.</param>
public readonly record struct CalibrationBin(double From, double To, int Count, double MeanForecast, double Observed);
