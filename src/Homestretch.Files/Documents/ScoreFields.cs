namespace Homestretch.Files.Documents;

/// <summary>A score of the forecasts and of what they have to beat.</summary>
/// <param name="Forecast">The program's forecasts.</param>
/// <param name="BaseRate">Always forecasting the share that passed.</param>
/// <param name="PlainShare">The plain share correct and a binomial; null for outcomes.</param>
public sealed record ScoreFields(double Forecast, double BaseRate, double? PlainShare);
