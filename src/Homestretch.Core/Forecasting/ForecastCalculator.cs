using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Forecasting;

/// <summary>What to expect on the exam from where a person stands.</summary>
public static class ForecastCalculator
{
    /// <summary>The forecast if the exam were sat as things stand.</summary>
    /// <param name="standing">The person's standing; its exam's cut scores decide.</param>
    /// <param name="learning">Assumptions on learning, for the topic targets; the documented defaults when null.</param>
    public static Forecast Calculate(CandidateStanding standing, LearningAssumptions? learning = null)
    {
        ArgumentNullException.ThrowIfNull(standing);
        Exam exam = standing.Exam;
        ScoreModel model = new(standing, learning);
        ScoreOutcome outcome = model.Outcome(model.EffortNow);
        int[] needed = TopicTargets.Find(exam, standing.Posterior, model.BreadthFactors);
        ImmutableArray<SectionForecast> sections = [.. exam.Sections.Select((section, s) =>
        {
            int? cut = exam.Rule == OverallRule.Total ? null : section.Cut?.RequiredCorrect(section.ScoredItems);
            double expected = exam.Topics.Select((t, i) => t.SectionIndex == s ? outcome.TopicExpected[i] : 0).Sum();
            return new SectionForecast(section, cut is null ? null : outcome.SectionPassChances[s], expected, cut, [.. outcome.Sections[s]]);
        })];
        return new Forecast(
            exam,
            outcome.PassChance,
            outcome.ExpectedCorrect,
            exam.RequiredCorrect,
            [.. outcome.Total],
            sections,
            [.. exam.Topics.Select((topic, t) => new TopicForecast(topic, outcome.TopicExpected[t], needed[t]))],
            model.Uncertainty(model.EffortNow))
        {
            Pace = PaceOutlook.Of(
                exam,
                standing.Taking.Pace,
                outcome.PassChance,
                model.TimeMatters ? new ScoreModel(standing with { Taking = TestTaking.None }, learning).PassChance(model.EffortNow) : outcome.PassChance),
        };
    }
}
