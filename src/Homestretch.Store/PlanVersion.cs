using System.Text.Json.Serialization;

using NodaTime;

namespace Homestretch.Store;

/// <summary>A plan as it was at one time.</summary>
public sealed class PlanVersion : KeptRow
{
    /// <summary>Why it was made, in one sentence for the candidate.</summary>
    public required string Why { get; init; }

    /// <summary>The pass chance with the plan, 0 to 1, as its document has it; set by the store.</summary>
    [JsonIgnore]
    public double? WithPlan { get; internal set; }

    /// <summary>The pass chance without more study, 0 to 1, as its document has it; set by the store.</summary>
    [JsonIgnore]
    public double? WithoutStudy { get; internal set; }

    /// <summary>The day of its first block; set by the store.</summary>
    [JsonIgnore]
    public LocalDate? FirstDay { get; internal set; }

    /// <summary>Planned minutes day by day from <see cref="FirstDay"/> on, with commas between; set by the store, null where it has not been yet.</summary>
    [JsonIgnore]
    public string? Minutes { get; internal set; }

    /// <summary>The plan's JSON document (docs/json.md).</summary>
    [JsonIgnore]
    public string Document { get; set; } = "";
}
