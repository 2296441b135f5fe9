namespace Homestretch.Store;

/// <summary>A file exactly as it was given to us, so that a later version can read it anew.</summary>
public sealed class StoredFile
{
    /// <summary>Set by the database.</summary>
    public long Id { get; init; }

    /// <summary>The case it belongs to.</summary>
    public string CaseKey { get; init; } = "";

    /// <summary>What it is for.</summary>
    public required FileRole Role { get; init; }

    /// <summary>Order among the case's files, from 0.</summary>
    public required int Position { get; init; }

    /// <summary>The name the person's computer gave it, without folders.</summary>
    public required string Name { get; init; }

    /// <summary>Its bytes, unchanged.</summary>
    // An array because EF Core maps it as it is; nobody else writes to it.
#pragma warning disable CA1819
    public required byte[] Content { get; init; }
#pragma warning restore CA1819
}
