using System.Text.Json.Serialization;

using NodaTime;

namespace Homestretch.Store;

/// <summary>A file that everybody who prepares for an exam studies from, exactly as it was given to us.</summary>
public sealed class StoredExamFile
{
    /// <summary>Set by the database; later ones are larger.</summary>
    [JsonIgnore]
    public long Id { get; init; }

    /// <summary>The exam it belongs to.</summary>
    [JsonIgnore]
    public string ExamKey { get; set; } = "";

    /// <summary>When it came.</summary>
    public required Instant At { get; init; }

    /// <summary>What it is for.</summary>
    public required ExamFileRole Role { get; init; }

    /// <summary>The name the person's computer gave it, without folders; behind the name of a topic and a slash where one was chosen for its items.</summary>
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
