using System.Collections.Immutable;

using Homestretch.Core.Blueprints;

namespace Homestretch.Files.Documents;

/// <summary>A topic of a blueprint.</summary>
/// <param name="Name">Name.</param>
/// <param name="Items">Scored items.</param>
/// <param name="Weight">As published: "12 items", "30 %", "35-40 %".</param>
/// <param name="WeightClass"><c>heavy</c>, <c>moderate</c> or <c>light</c> against an equal share.</param>
/// <param name="Subtopics">Its parts, where published.</param>
public sealed record TopicFields(string Name, int Items, string Weight, string WeightClass, ImmutableArray<SubtopicFields> Subtopics)
{
    internal static TopicFields Of(ExamTopic topic) => new(
        topic.Name,
        topic.Items,
        Words.Of(topic.Topic.Weight),
        Words.Of(topic.WeightClass),
        [.. topic.Topic.Subtopics.Select(s => new SubtopicFields(s.Name, s.Items, s.Weight is { } weight ? Words.Of(weight) : null))]);
}
