using Homestretch.Core.Measurement;

namespace Homestretch.Calibration;

/// <summary>How forecasts of one cut score held.</summary>
/// <param name="Percent">The cut score in percent of the exam's items.</param>
/// <param name="Forecast">The program's forecasts.</param>
/// <param name="RawShare">Forecasts from the plain share correct and a binomial.</param>
public sealed record SplitStudyCut(double Percent, CalibrationTable Forecast, CalibrationTable RawShare);
