namespace Homestretch.Files.Documents;

/// <summary>Forecasts in one tenth of the scale and what became of them.</summary>
/// <param name="From">Lowest pass chance.</param>
/// <param name="To">Highest.</param>
/// <param name="Forecasts">How many.</param>
/// <param name="People">Of how many people.</param>
/// <param name="MeanForecast">Mean pass chance.</param>
/// <param name="Passed">Share that passed.</param>
/// <param name="Low">Lower end of its 90 % interval.</param>
/// <param name="High">Upper end.</param>
public sealed record CalibrationBinFields(double From, double To, int Forecasts, int People, double MeanForecast, double Passed, double Low, double High);
