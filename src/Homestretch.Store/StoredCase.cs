using NodaTime;

namespace Homestretch.Store;

/// <summary>One candidate's preparation for one exam, as it was entered.</summary>
public sealed class StoredCase
{
    /// <summary>Names the case in addresses: small letters, digits and hyphens.</summary>
    public required string Key { get; init; }

    /// <summary>The person, as named in the evidence.</summary>
    public required string Candidate { get; init; }

    /// <summary>The exam's name, kept for the list of cases.</summary>
    public required string ExamName { get; init; }

    /// <summary>The day of the exam, as entered.</summary>
    public required LocalDate ExamDay { get; init; }

    /// <summary>When it was entered.</summary>
    public required Instant CreatedAt { get; init; }

    /// <summary>When it was removed; null while it is in use.</summary>
    public Instant? RemovedAt { get; set; }

    /// <summary>Its files, in the order of <see cref="StoredFile.Position"/>.</summary>
    public IList<StoredFile> Files { get; init; } = [];
}
