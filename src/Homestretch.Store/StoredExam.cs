namespace Homestretch.Store;

/// <summary>An exam that one or several cases prepare for.</summary>
public sealed class StoredExam
{
    /// <summary>Names the exam: small letters, digits and hyphens.</summary>
    public required string Key { get; init; }

    /// <summary>The exam's name, kept for lists.</summary>
    public required string Name { get; set; }

    /// <summary>Its exam files, oldest first; the latest that is not taken out counts.</summary>
    public IList<StoredExamVersion> Versions { get; init; } = [];

    /// <summary>What there is to study from, oldest first.</summary>
    public IList<StoredExamFile> Files { get; init; } = [];
}
