using System.Collections.Immutable;

using Homestretch.Core.Calibration;

using NodaTime.Text;

namespace Homestretch.Files.Documents;

/// <summary>How well pass chances held.</summary>
/// <param name="Exam">Name of the exam.</param>
/// <param name="Way">outcomes or split.</param>
/// <param name="Test">The outcome's name, or that of the test that was split.</param>
/// <param name="Findings">What a coach should know, in sentences.</param>
/// <param name="People">People compared.</param>
/// <param name="Forecasts">Forecasts compared; one for each person, or one for each person and split.</param>
/// <param name="BaseRate">Share that passed.</param>
/// <param name="MeanForecast">Mean pass chance.</param>
/// <param name="CalibrationError">Mean distance between forecast and share that passed, over tenths.</param>
/// <param name="Brier">Brier scores.</param>
/// <param name="Log">Log scores.</param>
/// <param name="Table">By tenths of the pass chance; tenths without a forecast are left out.</param>
/// <param name="Passes">Passes against forecasts; null for a split.</param>
/// <param name="Split">How the test was split; null for outcomes.</param>
/// <param name="Cases">Person by person, in the order of the evidence; empty for a split.</param>
/// <param name="LeftOut">Who could not be compared, and why; empty for a split.</param>
public sealed record CalibrationDocument(
    string Exam,
    string Way,
    string Test,
    ImmutableArray<string> Findings,
    int People,
    int Forecasts,
    double BaseRate,
    double MeanForecast,
    double CalibrationError,
    ScoreFields Brier,
    ScoreFields Log,
    ImmutableArray<CalibrationBinFields> Table,
    PassesFields? Passes,
    SplitFields? Split,
    ImmutableArray<PersonOutcomeFields> Cases,
    ImmutableArray<LeftOutFields> LeftOut)
{
    /// <summary>The document of a report.</summary>
    public static CalibrationDocument Of(CalibrationReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        CalibrationTable table = report.Table;
        CalibrationTable? plain = report.Split?.Cuts[0].PlainShare;
        return new(
            report.Exam.Name,
            report.Split is null ? "outcomes" : "split",
            report.Test,
            report.Findings,
            report.Split?.People ?? report.Outcomes!.People.Length,
            table.Count,
            table.BaseRate,
            table.MeanForecast,
            table.CalibrationError,
            new(table.BrierScore, table.BaseRateBrierScore, plain?.BrierScore),
            new(table.LogScore, table.BaseRateLogScore, plain?.LogScore),
            [.. table.Bins.Select(b => new CalibrationBinFields(b.From, b.To, b.Count, b.People, b.MeanForecast, b.Observed, b.Interval.Low, b.Interval.High))],
            report.Outcomes is { } o ? new(o.Passes, o.ExpectedPasses, o.LowPasses, o.HighPasses) : null,
            report.Split is { } s ? new(s.Options.Splits, s.Options.Seed, s.Items, s.PriorsLearned, s.Options.ExamSatBefore, s.Coverage, s.Pit) : null,
            report.Outcomes is null
                ? []
                : [.. report.Outcomes.People.Select(p => new PersonOutcomeFields(p.Candidate, p.Attempt, LocalDatePattern.Iso.Format(p.Date), p.EvidenceItems, p.PassChance, p.Passed))],
            report.Outcomes is null ? [] : [.. report.Outcomes.LeftOut.Select(p => new LeftOutFields(p.Candidate, Words.Of(p.Reason)))]);
    }
}
