using System.Text.Json.Serialization;

using NodaTime;

namespace Homestretch.Store;

/// <summary>One candidate's preparation for one exam, with everything that was ever entered.</summary>
public sealed class StoredCase
{
    /// <summary>Names the case in addresses: small letters, digits and hyphens.</summary>
    public required string Key { get; init; }

    /// <summary>The person, as named in the evidence.</summary>
    public required string Candidate { get; init; }

    /// <summary>The exam.</summary>
    public string ExamKey { get; set; } = "";

    /// <summary>The exam, where it was asked for.</summary>
    [JsonIgnore]
    public StoredExam? Exam { get; set; }

    /// <summary>The day of the exam, as first entered; a later decision may have moved it.</summary>
    public required LocalDate ExamDay { get; init; }

    /// <summary>When it was entered.</summary>
    public required Instant CreatedAt { get; init; }

    /// <summary>When it was removed; null while it is in use.</summary>
    public Instant? RemovedAt { get; set; }

    /// <summary>How often anything in it has changed.</summary>
    [JsonIgnore]
    public long Changes { get; set; }

    /// <summary>Its files, oldest first.</summary>
    public IList<StoredFile> Files { get; init; } = [];

    /// <summary>Its evidence, in the order it came.</summary>
    public IList<EvidenceRow> Evidence { get; init; } = [];

    /// <summary>Its study sessions, in the order they came.</summary>
    public IList<StudyRow> Sessions { get; init; } = [];

    /// <summary>Its plans, oldest first.</summary>
    public IList<PlanVersion> Plans { get; init; } = [];

    /// <summary>What was decided, oldest first.</summary>
    public IList<Decision> Decisions { get; init; } = [];

    /// <summary>How official exams ended, in the order they came.</summary>
    public IList<OfficialResult> Results { get; init; } = [];

    /// <summary>The words the candidate noted, in the order they came.</summary>
    public IList<WordRow> Words { get; init; } = [];

    /// <summary>Recalls of these words, in the order they came.</summary>
    public IList<RecallRow> Recalls { get; init; } = [];

    /// <summary>The candidate's personal links, oldest first.</summary>
    public IList<PersonalLink> Links { get; init; } = [];

    /// <summary>The exam day that holds now: as last decided, or as first entered.</summary>
    [JsonIgnore]
    public LocalDate CurrentExamDay => Decisions.LastOrDefault(d => d.RemovedAt is null && d.ExamDay is not null)?.ExamDay ?? ExamDay;
}
