using System.Collections.Immutable;
using System.Text.Json.Serialization;

namespace Homestretch.Store;

/// <summary>One row of evidence, in the columns of an evidence file and as it was written there, so that one reader serves files and store alike.</summary>
public sealed class EvidenceRow : KeptRow
{
    /// <summary>Column <c>candidate</c>; a file may tell of several people.</summary>
    public required string Candidate { get; init; }

    /// <summary>Column <c>attempt</c>.</summary>
    public required string Attempt { get; init; }

    /// <summary>Column <c>kind</c>.</summary>
    public required string Kind { get; init; }

    /// <summary>Column <c>date</c>.</summary>
    public required string Date { get; init; }

    /// <summary>Column <c>topic</c>.</summary>
    public required string Topic { get; init; }

    /// <summary>Column <c>subtopic</c>.</summary>
    public string Subtopic { get; init; } = "";

    /// <summary>Column <c>item</c>.</summary>
    public string Item { get; init; } = "";

    /// <summary>Column <c>correct</c>.</summary>
    public string Correct { get; init; } = "";

    /// <summary>Column <c>seconds</c>.</summary>
    public string Seconds { get; init; } = "";

    /// <summary>Column <c>sure</c>.</summary>
    public string Sure { get; init; } = "";

    /// <summary>Column <c>items</c>.</summary>
    public string Items { get; init; } = "";

    /// <summary>Column <c>percent</c>.</summary>
    public string Percent { get; init; } = "";

    /// <summary>Column <c>band</c>.</summary>
    public string Band { get; init; } = "";

    /// <summary>Column <c>note</c>.</summary>
    public string Note { get; init; } = "";

    /// <summary>Column <c>chosen</c>.</summary>
    public string Chosen { get; init; } = "";

    /// <summary>Column <c>key</c>: the right option.</summary>
    public string Key { get; init; } = "";

    /// <summary>Column <c>against exam</c>.</summary>
    public string AgainstExam { get; init; } = "";

    /// <summary>The cells in the order of the evidence file's columns.</summary>
    [JsonIgnore]
    public ImmutableArray<string> Cells =>
        [Candidate, Attempt, Kind, Date, Topic, Subtopic, Item, Correct, Seconds, Sure, Items, Percent, Band, Note, Chosen, Key, AgainstExam];
}
