using System.Collections.Immutable;

using Homestretch.Core.Forecasting;

using NodaTime.Text;

namespace Homestretch.Files.Documents;

/// <summary>What to expect on the exam without more study.</summary>
/// <param name="Exam">Name of the exam.</param>
/// <param name="Candidate">The person's name as the evidence gives it.</param>
/// <param name="AsOf">The day the forecast is for, ISO 8601.</param>
/// <param name="PassChance">Chance of passing under the exam's rule, 0 to 1.</param>
/// <param name="ExpectedCorrect">Expected correct answers of all scored items.</param>
/// <param name="ScoredItems">Scored items of all sections.</param>
/// <param name="Cut">Correct answers needed in all.</param>
/// <param name="ExpectedMargin">Expected items above the cut score; negative when short of it.</param>
/// <param name="Distribution">Chance of exactly 0, 1, ... N correct answers; sums to 1.</param>
/// <param name="Uncertainty">Where the uncertainty about the number of correct answers comes from.</param>
/// <param name="Sections">In the order of the exam.</param>
/// <param name="Topics">In the order of the exam.</param>
/// <param name="Worth">What the next minutes of study on each topic are worth, in the order of the exam.</param>
/// <param name="Basis">The assumptions and calibrated items that the figures rest on.</param>
/// <param name="Study">The study that was done; null where no log was given.</param>
/// <param name="Pace">What the time limits mean for the person; null where the exam has none or the person's pace is not known.</param>
/// <param name="PaceMarks">Where to be on the clock on exam day, in sections with a time limit.</param>
public sealed record ForecastDocument(
    string Exam,
    string Candidate,
    string AsOf,
    double PassChance,
    double ExpectedCorrect,
    int ScoredItems,
    int Cut,
    double ExpectedMargin,
    ImmutableArray<double> Distribution,
    UncertaintyFields Uncertainty,
    ImmutableArray<SectionForecastFields> Sections,
    ImmutableArray<TopicForecastFields> Topics,
    ImmutableArray<WorthFields> Worth,
    BasisFields Basis,
    StudyFields? Study,
    PaceOutlookFields? Pace,
    ImmutableArray<PaceMarkFields> PaceMarks)
{
    /// <summary>The document of a forecast.</summary>
    public static ForecastDocument Of(CandidateReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        Forecast forecast = report.Forecast;
        return new(
            forecast.Exam.Name,
            report.Candidate,
            LocalDatePattern.Iso.Format(report.Standing.AsOf),
            forecast.PassChance,
            forecast.ExpectedCorrect,
            forecast.Exam.ScoredItems,
            forecast.Cut,
            forecast.ExpectedMargin,
            forecast.Distribution,
            UncertaintyFields.Of(forecast.Uncertainty),
            [.. forecast.Sections.Select(s => new SectionForecastFields(s.Section.Name, s.PassChance, s.ExpectedCorrect, s.Section.ScoredItems, s.Cut, s.Distribution))],
            [.. forecast.Topics.Select(t => new TopicForecastFields(t.Topic.Name, t.Topic.Section.Name, t.Topic.Items, t.ExpectedCorrect, t.NeededCorrect))],
            [.. report.Worth.Select(WorthFields.Of)],
            BasisFields.Of(report.Basis, report.Standing),
            StudyFields.Of(report.Study, forecast.Exam),
            PaceOutlookFields.Of(forecast.Pace),
            PaceMarkFields.Of(forecast.Exam));
    }
}
