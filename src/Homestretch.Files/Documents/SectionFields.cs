using System.Collections.Immutable;

using Homestretch.Core.Blueprints;

namespace Homestretch.Files.Documents;

/// <summary>A section of an exam.</summary>
/// <param name="Name">Name.</param>
/// <param name="ScoredItems">Items that count.</param>
/// <param name="UnscoredItems">Items that take time but do not count.</param>
/// <param name="Minutes">Time limit; null where none is published.</param>
/// <param name="Options">Options per item; 0 where answers are constructed.</param>
/// <param name="Cut">Correct answers needed in the section; null where it has no cut score.</param>
/// <param name="PublishedCut">The cut score as published.</param>
/// <param name="Topics">Topics in the order of the file.</param>
public sealed record SectionFields(
    string Name,
    int ScoredItems,
    int UnscoredItems,
    int? Minutes,
    int Options,
    int? Cut,
    string? PublishedCut,
    ImmutableArray<TopicFields> Topics)
{
    internal static SectionFields Of(Section section, IEnumerable<ExamTopic> topics) => new(
        section.Name,
        section.ScoredItems,
        section.UnscoredItems,
        section.Minutes,
        section.Options,
        section.Cut?.RequiredCorrect(section.ScoredItems),
        section.Cut is { } cut ? Words.Of(cut) : null,
        [.. topics.Select(TopicFields.Of)]);
}
