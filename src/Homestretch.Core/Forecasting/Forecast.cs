using System.Collections.Immutable;

using Homestretch.Core.Blueprints;

namespace Homestretch.Core.Forecasting;

/// <summary>What to expect on the exam.</summary>
/// <param name="Exam">The exam.</param>
/// <param name="PassChance">Chance of passing under the exam's rule, 0 to 1.</param>
/// <param name="ExpectedCorrect">Expected correct answers of all scored items.</param>
/// <param name="Cut">Correct answers needed in all (<see cref="Exam.RequiredCorrect"/>).</param>
/// <param name="Distribution">Chance of exactly 0, 1, ... N correct answers; sums to 1.</param>
/// <param name="Sections">One per section, in order.</param>
/// <param name="Topics">One per topic, in order.</param>
/// <param name="Uncertainty">Where the uncertainty about the number of correct answers comes from.</param>
public sealed record Forecast(
    Exam Exam,
    double PassChance,
    double ExpectedCorrect,
    int Cut,
    ImmutableArray<double> Distribution,
    ImmutableArray<SectionForecast> Sections,
    ImmutableArray<TopicForecast> Topics,
    ScoreUncertainty Uncertainty)
{
    /// <summary>What the time limits mean for the person; null where the exam has none or the person's pace is not known.</summary>
    public PaceOutlook? Pace { get; init; }

    /// <summary>Expected items above the cut score; negative when short of it.</summary>
    public double ExpectedMargin => ExpectedCorrect - Cut;
}
