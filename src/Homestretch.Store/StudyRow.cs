using System.Collections.Immutable;
using System.Text.Json.Serialization;

namespace Homestretch.Store;

/// <summary>One study session, in the columns of a study log and as it was written there; also one that was planned and missed.</summary>
public sealed class StudyRow : KeptRow
{
    /// <summary>Whether the session took place.</summary>
    public required StudyOutcome Outcome { get; init; }

    /// <summary>Column <c>candidate</c>.</summary>
    public required string Candidate { get; init; }

    /// <summary>Column <c>date</c>.</summary>
    public required string Date { get; init; }

    /// <summary>Column <c>topic</c>.</summary>
    public required string Topic { get; init; }

    /// <summary>Column <c>subtopic</c>.</summary>
    public string Subtopic { get; init; } = "";

    /// <summary>Column <c>minutes</c>; empty where the session was missed.</summary>
    public string Minutes { get; init; } = "";

    /// <summary>Column <c>how</c>.</summary>
    public required string How { get; init; }

    /// <summary>Column <c>block</c>: the block of the plan that this was.</summary>
    public string Block { get; init; } = "";

    /// <summary>Column <c>note</c>.</summary>
    public string Note { get; init; } = "";

    /// <summary>When the block was planned to start, ISO 8601 with offset; null for a session that was not planned here.</summary>
    public string? PlannedStart { get; init; }

    /// <summary>Minutes the block was planned for; null for a session that was not planned here.</summary>
    public int? PlannedMinutes { get; init; }

    /// <summary>The cells in the order of the study log's columns.</summary>
    [JsonIgnore]
    public ImmutableArray<string> Cells => [Candidate, Date, Topic, Subtopic, Minutes, How, Block, Note];
}
