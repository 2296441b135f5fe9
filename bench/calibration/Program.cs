using System.Diagnostics;
using System.Globalization;

using Homestretch.Calibration;
using Homestretch.Core.Calibration;

// How well forecasts hold on real answers split into a diagnostic and an exam. Usage: bench/calibration/run [splits] [seed]
// And how well they can hold, on people and items drawn from the model itself: bench/calibration/run simulated [exams] [splits]
CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
if (args is ["simulated", ..])
{
    Simulated(Number(1, 20), Number(2, 50));
}
else
{
    Real(Number(0, 200), Number(1, 1));
}

int Number(int place, int otherwise) => args.Length > place ? int.Parse(args[place], CultureInfo.InvariantCulture) : otherwise;

static void Real(int splits, int seed)
{
    foreach ((string name, bool sat) in RealData.Names.SelectMany(n => new[] { (n, false), (n, true) }))
    {
        Stopwatch watch = Stopwatch.StartNew();
        SplitStudyResult result = Study(RealData.Named(name), splits, seed, sat);
        Console.WriteLine($"{name}, {Learned(sat)}: {splits} splits, {result.Forecasts} forecasts, seed {seed}, {watch.Elapsed.TotalSeconds:F0} s");
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
}

static void Simulated(int exams, int splits)
{
    Console.WriteLine($"{exams} simulated exams, {splits} splits each: calibration error at 50, 60 and 70 %, of one exam on average, and of all exams together");
    foreach ((int times, bool sat) in new[] { (1, false), (1, true), (3, false), (3, true) })
    {
        SplitStudyResult[] results = [.. Enumerable.Range(1, exams).Select(seed => Study(SimulatedExam.Draw(seed, times), splits, seed, sat))];
        string[] errors = [.. Enumerable.Range(0, 3).Select(cut =>
        {
            CalibrationTable[] tables = [.. results.Select(r => r.Cuts[cut].Forecast)];
            double pooled = tables.SelectMany(t => t.Bins).GroupBy(b => b.From).Sum(tenth => Math.Abs(tenth.Sum(b => b.Count * (b.MeanForecast - b.Observed)))) / tables.Sum(t => t.Count);
            return $"{tables.Average(t => t.CalibrationError):F3} and {pooled:F3}";
        })];
        Console.WriteLine($"  {13 * times} items, {Learned(sat)}: {string.Join(", ", errors)}; coverage {results.Average(r => r.Coverage):P1}");
    }
}

static SplitStudyResult Study(RealData data, int splits, int seed, bool sat)
    => SplitStudy.Run(data.Exam, data.Answers, new SplitStudyOptions(splits, seed) { ExamSatBefore = sat, TotalPercents = [50, 60, 70] });

static string Learned(bool sat) => $"learned from people who {(sat ? "sat the exam half too" : "took the diagnostic half only")}";
