using System.Collections.Immutable;

namespace Homestretch.Files.Exams.Editing;

/// <summary>A section as typed.</summary>
/// <param name="Name">Its name.</param>
/// <param name="ScoredItems">Items that count.</param>
/// <param name="UnscoredItems">Items that do not count; empty for none.</param>
/// <param name="Minutes">Time limit; empty where none is published.</param>
/// <param name="Options">Options per item, or <c>none</c>.</param>
/// <param name="Cut">Its own cut score.</param>
/// <param name="Topics">Its topics.</param>
public sealed record SectionDraft(string Name, string ScoredItems, string UnscoredItems, string Minutes, string Options, CutDraft Cut, ImmutableArray<TopicDraft> Topics)
{
    /// <summary>A section to fill in.</summary>
    public static SectionDraft Blank { get; } = new("", "", "", "", "4", CutDraft.None with { Kind = CutDraft.Percent }, [TopicDraft.Blank, TopicDraft.Blank, TopicDraft.Blank]);
}
