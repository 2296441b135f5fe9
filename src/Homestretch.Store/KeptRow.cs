using System.Text.Json.Serialization;

using NodaTime;

namespace Homestretch.Store;

/// <summary>Anything that is kept of a case: when it came, where from, and whether it has been taken out again. Nothing kept is ever changed; it is taken out, and can be put back.</summary>
public abstract class KeptRow
{
    /// <summary>Set by the database; later ones are larger.</summary>
    [JsonIgnore]
    public long Id { get; init; }

    /// <summary>The case it belongs to.</summary>
    [JsonIgnore]
    public string CaseKey { get; set; } = "";

    /// <summary>When it came.</summary>
    public required Instant At { get; init; }

    /// <summary>How it came.</summary>
    public required Origin Origin { get; init; }

    /// <summary>The file it was read from, as the person's computer named it, without folders; null where it was entered.</summary>
    public string? OriginFile { get; init; }

    /// <summary>The line of that file, from 1; null where it is the whole file or was entered.</summary>
    public int? OriginLine { get; init; }

    /// <summary>When it was taken out; null while it counts.</summary>
    public Instant? RemovedAt { get; set; }
}
