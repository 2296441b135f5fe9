using System.Text.Json.Serialization;

using NodaTime;

namespace Homestretch.Store;

/// <summary>One version of an exam's file, exactly as it was given to us.</summary>
public sealed class StoredExamVersion
{
    /// <summary>Set by the database; later ones are larger.</summary>
    [JsonIgnore]
    public long Id { get; init; }

    /// <summary>The exam it belongs to.</summary>
    [JsonIgnore]
    public string ExamKey { get; set; } = "";

    /// <summary>When it came.</summary>
    public required Instant At { get; init; }

    /// <summary>How it came.</summary>
    public Origin Origin { get; init; } = Origin.File;

    /// <summary>The name the person's computer gave it, without folders.</summary>
    public required string Name { get; init; }

    /// <summary>When it was taken out; null while it counts.</summary>
    public Instant? RemovedAt { get; set; }

    /// <summary>Its bytes, unchanged.</summary>
    // An array because EF Core maps it as it is; nobody else writes to it.
#pragma warning disable CA1819
    [JsonIgnore]
    public byte[] Content { get; set; } = [];
#pragma warning restore CA1819
}
