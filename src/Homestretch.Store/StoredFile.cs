using System.Text.Json.Serialization;

namespace Homestretch.Store;

/// <summary>A file of a case exactly as it was given to us, so that a later version can read it anew. Of free time, busy times and item banks the latest counts.</summary>
public sealed class StoredFile : KeptRow
{
    /// <summary>What it is for.</summary>
    public required FileRole Role { get; init; }

    /// <summary>The name the person's computer gave it, without folders.</summary>
    public required string Name { get; init; }

    /// <summary>Its bytes, unchanged.</summary>
    // An array because EF Core maps it as it is; nobody else writes to it.
#pragma warning disable CA1819
    [JsonIgnore]
    public byte[] Content { get; set; } = [];
#pragma warning restore CA1819
}
