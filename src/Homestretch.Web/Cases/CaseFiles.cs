using System.Collections.Immutable;

using Homestretch.Store;

using NodaTime;

namespace Homestretch.Web.Cases;

/// <summary>A case before its files are read.</summary>
/// <param name="Key">Names the case in addresses.</param>
/// <param name="Candidate">The person, as named in the evidence; null to take the only one there.</param>
/// <param name="ExamDay">The day of the exam.</param>
/// <param name="Story">One line about the person, for the demo only.</param>
/// <param name="From">The moment at which a demo case plays; null where the clock decides.</param>
/// <param name="Files">Its files.</param>
public sealed record CaseFiles(
    string Key,
    string? Candidate,
    LocalDate ExamDay,
    string? Story,
    LocalDateTime? From,
    ImmutableArray<NamedFile> Files)
{
    // Of these the latest counts; of all others every one.
    private static readonly FileRole[] _single = [FileRole.Exam, FileRole.FreeTime, FileRole.Busy, FileRole.ItemBank];

    /// <summary>Days of recorded official results.</summary>
    public ImmutableArray<LocalDate> Sittings { get; init; } = [];

    /// <summary>The catalogue of what there is to study from; null where there is none.</summary>
    public (string Name, ReadOnlyMemory<byte> Content)? Resources { get; init; }

    /// <summary>The files of a stored case: those that were kept, and its rows as files of their own.</summary>
    public static CaseFiles Of(StoredCase stored)
    {
        ArgumentNullException.ThrowIfNull(stored);
        CaseFiles files = new(stored.Key, stored.Candidate, stored.CurrentExamDay, null, null, [])
        {
            Sittings = [.. stored.Results.Select(r => r.Date)],
            Resources = stored.Exam?.Files.LastOrDefault(f => f.Role == ExamFileRole.Resources && f.RemovedAt is null) is { } catalogue ? (catalogue.Name, catalogue.Content) : null,
        };
        IEnumerable<NamedFile> all =
        [
            .. stored.Exam?.Versions.Select(v => new NamedFile(FileRole.Exam, v.Name, v.Content)) ?? [],
            .. stored.Files.Select(f => new NamedFile(f.Role, f.Name, f.Content)),
            .. stored.Evidence.Count > 0 ? [new NamedFile(FileRole.Evidence, "evidence", KeptRows.EvidenceText(stored.Evidence))] : Array.Empty<NamedFile>(),
            .. stored.Sessions.Any(s => s.Outcome != StudyOutcome.Missed) ? [new NamedFile(FileRole.StudyLog, "study log", KeptRows.StudyText(stored.Sessions))] : Array.Empty<NamedFile>(),
        ];
        return all.Aggregate(files, (so, file) => so.With(file));
    }

    /// <summary>With one file more; of exam, free time, busy times and item bank it takes the place of the one before.</summary>
    public CaseFiles With(NamedFile file)
    {
        ArgumentNullException.ThrowIfNull(file);
        return this with { Files = [.. Files.Where(f => f.Role != file.Role || !_single.Contains(f.Role)), file] };
    }
}
