using System.Collections.Immutable;

namespace Homestretch.Core.Calibration;

/// <summary>How well forecasts of passing held against what happened.</summary>
/// <param name="Count">Forecasts.</param>
/// <param name="BaseRate">Share that passed.</param>
/// <param name="MeanForecast">Mean forecast.</param>
/// <param name="Bins">Forecasts by tenths of the scale; empty tenths are left out.</param>
/// <param name="CalibrationError">Mean distance between forecast and share over the tenths, weighted by forecasts.</param>
/// <param name="BrierScore">Mean squared distance of forecast and outcome (Brier 1950); 0 is perfect.</param>
/// <param name="BaseRateBrierScore">The same for always forecasting the base rate.</param>
/// <param name="LogScore">Mean logarithm of the chance given to what happened (Good 1952); 0 is perfect.</param>
/// <param name="BaseRateLogScore">The same for always forecasting the base rate.</param>
public sealed record CalibrationTable(
    int Count,
    double BaseRate,
    double MeanForecast,
    ImmutableArray<CalibrationBin> Bins,
    double CalibrationError,
    double BrierScore,
    double BaseRateBrierScore,
    double LogScore,
    double BaseRateLogScore)
{
    private const int BinCount = 10;

    // A certain forecast that fails would cost an infinite log score; a chance below this is none a person could tell from it.
    private const double SmallestChance = 1e-6;

    /// <summary>The table of forecasts and outcomes.</summary>
    /// <exception cref="ArgumentException">There is no forecast, or one is not between 0 and 1.</exception>
    public static CalibrationTable Of(IReadOnlyCollection<ForecastCase> cases)
    {
        ArgumentNullException.ThrowIfNull(cases);
        if (cases.Count == 0 || cases.Any(c => c.Chance is not (>= 0 and <= 1)))
        {
            throw new ArgumentException("Needs at least one forecast, each between 0 and 1.", nameof(cases));
        }

        int count = cases.Count;
        double rate = cases.Count(c => c.Passed) / (double)count;
        ImmutableArray<CalibrationBin> bins =
        [
            .. cases.GroupBy(c => Math.Min(BinCount - 1, (int)(c.Chance * BinCount)))
                .OrderBy(g => g.Key)
                .Select(g => CalibrationBin.Of((double)g.Key / BinCount, (g.Key + 1.0) / BinCount, [.. g])),
        ];
        static double Log(double chance) => Math.Log(Math.Max(SmallestChance, chance));
        return new CalibrationTable(
            count,
            rate,
            cases.Average(c => c.Chance),
            bins,
            bins.Sum(b => b.Count * Math.Abs(b.MeanForecast - b.Observed)) / count,
            cases.Average(c => Square(c.Chance - (c.Passed ? 1 : 0))),
            rate * (1 - rate),
            cases.Average(c => Log(c.Passed ? c.Chance : 1 - c.Chance)),
            (rate * Log(rate)) + ((1 - rate) * Log(1 - rate)));
    }

    private static double Square(double value) => value * value;
}
