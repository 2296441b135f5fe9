using System.Collections.Immutable;

using Homestretch.Core.Standing;

namespace Homestretch.Files.Documents;

/// <summary>Standing on one topic. Chances of a correct answer are 0 to 1.</summary>
/// <param name="Name">The topic.</param>
/// <param name="Section">Its section.</param>
/// <param name="Items">Scored items in the exam.</param>
/// <param name="WeightClass"><c>heavy</c>, <c>moderate</c> or <c>light</c>.</param>
/// <param name="EvidenceItems">Items answered on it so far.</param>
/// <param name="Mean">Expected chance of a correct answer.</param>
/// <param name="Low">Lower end of the 90 % interval.</param>
/// <param name="High">Upper end.</param>
/// <param name="Band"><c>weak</c>, <c>borderline</c> or <c>strong</c>: the level the mean lies in.</param>
/// <param name="BandChances">How likely each level is.</param>
/// <param name="Settled">Whether the level can be relied on.</param>
/// <param name="ItemsToSettle">More items that would on average settle it; 0 when settled, null when more than would be reasonable.</param>
/// <param name="Subtopics">Its parts that evidence names.</param>
public sealed record TopicStandingFields(
    string Name,
    string Section,
    int Items,
    string WeightClass,
    int EvidenceItems,
    double Mean,
    double Low,
    double High,
    string Band,
    BandChancesFields BandChances,
    bool Settled,
    int? ItemsToSettle,
    ImmutableArray<SubtopicStandingFields> Subtopics)
{
    internal static TopicStandingFields Of(TopicStanding standing) => new(
        standing.Topic.Name,
        standing.Topic.Section.Name,
        standing.Topic.Items,
        Words.Of(standing.Topic.WeightClass),
        standing.EvidenceItems,
        standing.Level.Mean,
        standing.Level.Low,
        standing.Level.High,
        Words.Of(standing.Level.Band),
        BandChancesFields.Of(standing.Level.Chances),
        standing.Level.Settled,
        standing.ItemsToSettle,
        [.. standing.Subtopics.Select(SubtopicStandingFields.Of)]);
}
