using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Planning;
using Homestretch.Core.Standing;

namespace Homestretch.Files.Pictures;

/// <summary>What the score field shows of one topic.</summary>
/// <param name="Topic">The topic.</param>
/// <param name="Level">Its standing now.</param>
/// <param name="After">Chance of a correct answer on exam day after the plan, 0 to 1; null without a plan.</param>
/// <param name="Minutes">Study minutes the plan gives it; null without a plan.</param>
internal sealed record TopicColumn(ExamTopic Topic, Level Level, double? After, int? Minutes)
{
    /// <summary>Whether there is a plan and it gives this topic no time.</summary>
    public bool LeftAlone => Minutes == 0;

    /// <summary>What the plan adds to the chance, zero or more.</summary>
    public double Added => Math.Max(0, (After ?? Level.Mean) - Level.Mean);

    /// <summary>All topics of a report that have scored items, in exam order.</summary>
    public static ImmutableArray<TopicColumn> Of(CandidateReport report) =>
    [
        .. report.Standing.Topics.Where(t => t.Topic.Items > 0).Select(t =>
        {
            TopicMinutes? study = report.Plan?.Minutes.FirstOrDefault(m => m.Topic.Name == t.Topic.Name);
            double gain = (study?.ScoreGain ?? 0) / t.Topic.Items;
            return new TopicColumn(
                t.Topic,
                t.Level,
                report.Plan is null ? null : Math.Clamp(t.Level.Mean + gain, 0, 1),
                report.Plan is null ? null : study?.Minutes ?? 0);
        }),
    ];
}
