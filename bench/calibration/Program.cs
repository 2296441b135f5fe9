using System.Diagnostics;
using System.Globalization;

using Homestretch.Calibration;
using Homestretch.Core.Calibration;

// How well forecasts hold on real answers split into a diagnostic and an exam. Usage: bench/calibration/run [splits] [seed]
int splits = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : 200;
int seed = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 1;
CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
foreach (string name in RealData.Names)
{
    Stopwatch watch = Stopwatch.StartNew();
    RealData data = RealData.Named(name);
    SplitStudyResult result = SplitStudy.Run(data.Exam, data.Answers, new SplitStudyOptions(splits, seed) { TotalPercents = [50, 60, 70] });
    Console.WriteLine($"{name}: {splits} splits, {result.Forecasts} forecasts, seed {seed}, {watch.Elapsed.TotalSeconds:F0} s");
    Console.WriteLine($"  90 % coverage {result.Coverage:P1}; outcomes by tenth of their forecast {string.Join(' ', result.Pit.Select(p => p.ToString("F3", CultureInfo.InvariantCulture)))}");
    Console.WriteLine("  cut | base rate | calibration error (plain share) | Brier: forecast, plain share, base rate | log score: forecast, base rate");
    foreach (SplitStudyCut cut in result.Cuts)
    {
        CalibrationTable forecast = cut.Forecast;
        Console.WriteLine($"  {cut.TotalPercent} % | {forecast.BaseRate:F3} | {forecast.CalibrationError:F4} ({cut.PlainShare.CalibrationError:F4}) | {forecast.BrierScore:F4}, {cut.PlainShare.BrierScore:F4}, {forecast.BaseRateBrierScore:F4} | {forecast.LogScore:F3}, {forecast.BaseRateLogScore:F3}");
    }

    foreach (SplitStudyCut cut in result.Cuts)
    {
        Console.WriteLine($"  {cut.TotalPercent} %: forecast to passed, by tenth: {string.Join(", ", cut.Forecast.Bins.Select(b => $"{b.MeanForecast:F2} to {b.Observed:F2} ({b.Count})"))}");
    }
}
