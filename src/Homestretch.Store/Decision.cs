using System.Text.Json.Serialization;

using NodaTime;

namespace Homestretch.Store;

/// <summary>What a person has decided, and the figures it rested on.</summary>
public sealed class Decision : KeptRow
{
    /// <summary>What was decided, in the person's words.</summary>
    public required string Text { get; init; }

    /// <summary>The exam day from now on; null where the decision leaves it alone.</summary>
    public LocalDate? ExamDay { get; init; }

    /// <summary>The forecast's JSON document at that time (docs/json.md).</summary>
    [JsonIgnore]
    public string Figures { get; set; } = "";
}
