using System.Diagnostics;
using System.Globalization;

using Homestretch.Calibration;
using Homestretch.Core.Measurement;

// How well forecasts hold on real answers split into a diagnostic and an exam. Usage: bench/calibration/run [splits] [seed]
int splits = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : 200;
int seed = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 1;
CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
foreach (string name in RealData.Names)
{
    Stopwatch watch = Stopwatch.StartNew();
    SplitStudyResult result = SplitStudy.Run(RealData.Named(name), splits, [50, 60, 70], seed);
    Console.WriteLine($"{name}: {splits} splits, {result.Forecasts} forecasts, seed {seed}, {watch.Elapsed.TotalSeconds:F0} s");
    Console.WriteLine($"  90 % coverage {result.Coverage:P1}; outcomes by tenth of their forecast {string.Join(' ', result.Pit.Select(p => p.ToString("F3", CultureInfo.InvariantCulture)))}");
    Console.WriteLine("  cut | base rate | calibration error (plain share) | Brier: forecast, plain share, base rate | log score: forecast, base rate");
    foreach (SplitStudyCut cut in result.Cuts)
    {
        CalibrationTable forecast = cut.Forecast;
        Console.WriteLine($"  {cut.Percent} % | {forecast.BaseRate:F3} | {forecast.CalibrationError:F4} ({cut.RawShare.CalibrationError:F4}) | {forecast.BrierScore:F4}, {cut.RawShare.BrierScore:F4}, {forecast.BaseRateBrierScore:F4} | {forecast.LogScore:F3}, {forecast.BaseRateLogScore:F3}");
    }
}
