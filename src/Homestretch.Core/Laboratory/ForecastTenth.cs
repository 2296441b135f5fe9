namespace Homestretch.Core.Laboratory;

/// <summary>Forecasts in one tenth of the scale and what became of them.</summary>
/// <param name="Count">Forecasts.</param>
/// <param name="MeanForecast">Their mean.</param>
/// <param name="Observed">Share that passed.</param>
public readonly record struct ForecastTenth(long Count, double MeanForecast, double Observed);
