using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Planning;
using Homestretch.Core.Standing;

namespace Homestretch.Files.Pictures;

/// <summary>What the score field shows of one topic.</summary>
/// <param name="Topic">The topic.</param>
/// <param name="Level">Its standing now.</param>
/// <param name="Now">Expected share of its items answered correctly, 0 to 1. Next to the standing's mean, but these are the
/// shares that sum to the forecast, so that areas are exact.</param>
/// <param name="After">The same on exam day after the plan; null without a plan.</param>
/// <param name="Minutes">Study minutes the plan gives it; null without a plan.</param>
internal sealed record TopicColumn(ExamTopic Topic, Level Level, double Now, double? After, int? Minutes)
{
    /// <summary>Whether there is a plan and it gives this topic no time.</summary>
    public bool LeftAlone => Minutes == 0;

    /// <summary>What the plan adds to the share, zero or more.</summary>
    public double Added => Math.Max(0, (After ?? Now) - Now);

    /// <summary>Lower end of the soft edge.</summary>
    public double Low => Math.Min(Level.Low, Now);

    /// <summary>Upper end of the soft edge.</summary>
    public double High => Math.Max(Level.High, Now);

    /// <summary>All topics of a report that have scored items, in exam order.</summary>
    public static ImmutableArray<TopicColumn> Of(CandidateReport report) =>
    [
        .. report.Standing.Topics.Select((t, i) => (Standing: t, Forecast: report.Forecast.Topics[i])).Where(t => t.Standing.Topic.Items > 0).Select(t =>
        {
            ExamTopic topic = t.Standing.Topic;
            double now = Math.Clamp(t.Forecast.ExpectedCorrect / topic.Items, 0, 1);
            TopicMinutes? study = report.Plan?.Minutes.FirstOrDefault(m => m.Topic.Name == topic.Name);
            return new TopicColumn(
                topic,
                t.Standing.Level,
                now,
                report.Plan is null ? null : Math.Clamp(now + ((study?.ScoreGain ?? 0) / topic.Items), 0, 1),
                report.Plan is null ? null : study?.Minutes ?? 0);
        }),
    ];
}
