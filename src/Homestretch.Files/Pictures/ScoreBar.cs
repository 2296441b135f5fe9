using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;

namespace Homestretch.Files.Pictures;

/// <summary>The bar beside the score field: expected score now, after the plan, and the cut score.</summary>
/// <param name="Section">Index of the section it sums up; null for the whole exam.</param>
/// <param name="Name">The section's name, or "Whole exam".</param>
/// <param name="Items">Scored items.</param>
/// <param name="Now">Expected correct answers now.</param>
/// <param name="After">Expected correct answers after the plan; null without a plan.</param>
/// <param name="Cut">Correct answers needed.</param>
internal sealed record ScoreBar(int? Section, string Name, int Items, double Now, double? After, int Cut)
{
    /// <summary>One bar for each section that has a cut score, and one for the whole where the total counts.</summary>
    public static ImmutableArray<ScoreBar> Of(CandidateReport report, ImmutableArray<TopicColumn> columns)
    {
        Exam exam = report.Standing.Exam;
        ImmutableArray<ScoreBar>.Builder bars = ImmutableArray.CreateBuilder<ScoreBar>();
        for (int s = 0; s < exam.Sections.Length; s++)
        {
            SectionForecast section = report.Forecast.Sections[s];
            if (section.Cut is { } cut && exam.Rule != OverallRule.Total)
            {
                double added = columns.Where(c => c.Topic.SectionIndex == s).Sum(c => c.Added * c.Topic.Items);
                bars.Add(new(s, section.Section.Name, section.Section.ScoredItems, section.ExpectedCorrect, report.Plan is null ? null : section.ExpectedCorrect + added, cut));
            }
        }

        if (exam.Rule != OverallRule.EverySection)
        {
            double added = columns.Sum(c => c.Added * c.Topic.Items);
            bars.Add(new(null, "Whole exam", exam.ScoredItems, report.Forecast.ExpectedCorrect, report.Plan is null ? null : report.Forecast.ExpectedCorrect + added, report.Forecast.Cut));
        }

        return bars.ToImmutable();
    }
}
