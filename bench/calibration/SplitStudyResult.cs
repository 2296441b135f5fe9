using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Measurement;

namespace Homestretch.Calibration;

/// <summary>What a split study found, pooled over its splits.</summary>
/// <param name="Forecasts">Forecasts made.</param>
/// <param name="Coverage">Share of outcomes inside the central 90 % of their forecast (randomised, since counts are discrete).</param>
/// <param name="Pit">Share of outcomes in each tenth of their forecast; a tenth each when forecasts are right.</param>
/// <param name="Cuts">One row per cut score.</param>
/// <param name="Seed">The seed it ran with.</param>
public sealed record SplitStudyResult(int Forecasts, double Coverage, ImmutableArray<double> Pit, ImmutableArray<SplitStudyCut> Cuts, int Seed)
{
    private const double Tail = 0.05;
    private const int Tenths = 10;

    internal static SplitStudyResult Of(List<SplitForecast> forecasts, ImmutableArray<double> cutPercents, int seed)
    {
        double[] pit = [.. forecasts.Select(f => f.Pit)];
        ImmutableArray<SplitStudyCut> cuts = [.. cutPercents.Select(percent =>
        {
            int Cut(SplitForecast f) => new PercentCut(percent).RequiredCorrect(f.Distribution.Length - 1);
            bool Passed(SplitForecast f) => f.Correct >= Cut(f);
            return new SplitStudyCut(
                percent,
                CalibrationTable.Of([.. forecasts.Select(f => (SplitForecast.ChanceAtLeast(f.Distribution, Cut(f)), Passed(f)))]),
                CalibrationTable.Of([.. forecasts.Select(f => (SplitForecast.ChanceAtLeast(f.Raw, Cut(f)), Passed(f)))]));
        })];
        return new SplitStudyResult(
            forecasts.Count,
            pit.Count(p => p is >= Tail and <= 1 - Tail) / (double)pit.Length,
            [.. Enumerable.Range(0, Tenths).Select(i => pit.Count(p => Math.Min(Tenths - 1, (int)(p * Tenths)) == i) / (double)pit.Length)],
            cuts,
            seed);
    }
}
