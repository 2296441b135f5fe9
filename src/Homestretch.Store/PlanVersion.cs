using System.Text.Json.Serialization;

namespace Homestretch.Store;

/// <summary>A plan as it was at one time.</summary>
public sealed class PlanVersion : KeptRow
{
    /// <summary>Why it was made, in one sentence for the candidate.</summary>
    public required string Why { get; init; }

    /// <summary>The plan's JSON document (docs/json.md).</summary>
    [JsonIgnore]
    public string Document { get; set; } = "";
}
