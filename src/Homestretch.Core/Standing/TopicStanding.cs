using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;

namespace Homestretch.Core.Standing;

/// <summary>Standing on one topic.</summary>
/// <param name="Topic">The topic and its place in the exam.</param>
/// <param name="EvidenceItems">Items answered on it so far.</param>
/// <param name="Level">What is known of the chance of a correct answer.</param>
/// <param name="ItemsToSettle">How many more items would, on average, make its band at least
/// <see cref="Level.SettledFrom"/> certain; 0 when it is settled, null when more than <see cref="StandingCalculator.MostItemsToSettle"/>.</param>
/// <param name="Subtopics">Its parts that evidence names.</param>
public sealed record TopicStanding(
    ExamTopic Topic,
    int EvidenceItems,
    Level Level,
    int? ItemsToSettle,
    ImmutableArray<SubtopicStanding> Subtopics)
{
    /// <summary>Correct answers of items as they were seen; null without evidence or where a report gives only bands.</summary>
    public ObservedShare? Observed { get; init; }
}
