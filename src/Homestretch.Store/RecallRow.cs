namespace Homestretch.Store;

/// <summary>One recall of a word: a part of column <c>answers</c> of a words file (docs/words.md), as it was written there.</summary>
public sealed class RecallRow : KeptRow
{
    /// <summary>The word's term; case does not matter.</summary>
    public required string Term { get; init; }

    /// <summary>The day.</summary>
    public required string Date { get; init; }

    /// <summary>How it went.</summary>
    public required string Outcome { get; init; }
}
