using System.Collections.Immutable;

namespace Homestretch.Files.Exams.Editing;

/// <summary>A topic as typed.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Weight">Its share of the section, such as <c>30 %</c>, <c>25-35 %</c> or <c>18 items</c>.</param>
/// <param name="Subtopics">Its parts.</param>
public sealed record TopicDraft(string Name, string Weight, ImmutableArray<SubtopicDraft> Subtopics)
{
    /// <summary>Whether nothing has been typed.</summary>
    public bool IsBlank => string.IsNullOrWhiteSpace(Name) && string.IsNullOrWhiteSpace(Weight) && Subtopics.All(s => s.IsBlank);

    /// <summary>An empty row.</summary>
    public static TopicDraft Blank { get; } = new("", "", []);
}
