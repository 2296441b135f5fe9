namespace Homestretch.Core.Calibration;

/// <summary>How forecasts of one pass mark held.</summary>
/// <param name="TotalPercent">The mark in percent of the exam half's items; null for the exam's own rule.</param>
/// <param name="Forecast">The program's forecasts.</param>
/// <param name="PlainShare">Forecasts from the plain share correct and a binomial.</param>
public sealed record SplitStudyCut(double? TotalPercent, CalibrationTable Forecast, CalibrationTable PlainShare);
