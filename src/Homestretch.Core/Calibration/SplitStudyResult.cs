using System.Collections.Immutable;

namespace Homestretch.Core.Calibration;

/// <summary>What a split study found, pooled over its splits.</summary>
/// <param name="Options">How it was made.</param>
/// <param name="People">People whose answers were used.</param>
/// <param name="Items">Items that were split.</param>
/// <param name="PriorsLearned">Whether priors were learned from half of the people; otherwise the documented defaults stood in, and everybody was forecast.</param>
/// <param name="Forecasts">Forecasts made.</param>
/// <param name="Coverage">Share of outcomes inside the central 90 % of their forecast (randomised, since counts are discrete).</param>
/// <param name="Pit">Share of outcomes in each tenth of their forecast; a tenth each when forecasts are right.</param>
/// <param name="Cuts">One row per mark.</param>
public sealed record SplitStudyResult(
    SplitStudyOptions Options,
    int People,
    int Items,
    bool PriorsLearned,
    int Forecasts,
    double Coverage,
    ImmutableArray<double> Pit,
    ImmutableArray<SplitStudyCut> Cuts)
{
    private const double Tail = 0.05;
    private const int Tenths = 10;

    internal static SplitStudyResult Of(SplitStudyOptions options, int people, int items, bool learned, SplitForecast[] forecasts)
    {
        CalibrationTable Table(int mark, Func<SplitForecast, double[]> chances)
            => CalibrationTable.Of([.. forecasts.Select(f => new ForecastCase(chances(f)[mark], f.Passed[mark], f.Person, f.Split))]);
        int marks = Math.Max(1, options.TotalPercents.Length);
        return new SplitStudyResult(
            options,
            people,
            items,
            learned,
            forecasts.Length,
            forecasts.Count(f => f.Pit is >= Tail and <= 1 - Tail) / (double)forecasts.Length,
            [.. Enumerable.Range(0, Tenths).Select(i => forecasts.Count(f => Math.Min(Tenths - 1, (int)(f.Pit * Tenths)) == i) / (double)forecasts.Length)],
            [.. Enumerable.Range(0, marks).Select(m => new SplitStudyCut(
                options.TotalPercents.IsEmpty ? null : options.TotalPercents[m],
                Table(m, f => f.Chances),
                Table(m, f => f.Plain)))]);
    }
}
