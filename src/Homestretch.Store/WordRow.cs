namespace Homestretch.Store;

/// <summary>What was written of one unknown word, in the columns of a words file (docs/words.md) and as it was written there. Of several rows of one term, whose case does not matter, the latest counts.</summary>
public sealed class WordRow : KeptRow
{
    /// <summary>Column <c>term</c>.</summary>
    public required string Term { get; init; }

    /// <summary>Column <c>topic</c>.</summary>
    public string Topic { get; init; } = "";

    /// <summary>Column <c>definition</c>: the candidate's own.</summary>
    public string Definition { get; init; } = "";

    /// <summary>Column <c>coach definition</c>.</summary>
    public string CoachDefinition { get; init; } = "";

    /// <summary>Column <c>noted</c>.</summary>
    public required string Noted { get; init; }
}
