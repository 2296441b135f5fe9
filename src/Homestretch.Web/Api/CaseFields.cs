using System.Collections.Immutable;

using Homestretch.Store;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Web.Api;

/// <summary>A case: one candidate's preparation for one exam.</summary>
/// <param name="Key">Names the case in addresses: small letters, digits and hyphens.</param>
/// <param name="Candidate">The person, as named in the evidence.</param>
/// <param name="Exam">The exam's key.</param>
/// <param name="ExamName">The exam's name.</param>
/// <param name="ExamDay">The day of the exam that holds now, ISO 8601.</param>
/// <param name="FirstExamDay">The day of the exam as first entered, ISO 8601.</param>
/// <param name="CreatedAt">When it was entered, ISO 8601 in UTC.</param>
/// <param name="EvidenceRows">Rows of evidence that count.</param>
/// <param name="Sessions">Study sessions that count.</param>
/// <param name="Decisions">Decisions that count.</param>
/// <param name="Files">Files that count: free time, busy times and the like.</param>
/// <param name="HasLink">Whether a personal link opens the candidate's pages.</param>
public sealed record CaseFields(
    string Key,
    string Candidate,
    string Exam,
    string ExamName,
    string ExamDay,
    string FirstExamDay,
    string CreatedAt,
    int EvidenceRows,
    int Sessions,
    int Decisions,
    ImmutableArray<KeptFile> Files,
    bool HasLink)
{
    /// <summary>The fields of a kept case.</summary>
    public static CaseFields Of(StoredCase stored)
    {
        ArgumentNullException.ThrowIfNull(stored);
        return new(
            stored.Key,
            stored.Candidate,
            stored.ExamKey,
            stored.Exam!.Name,
            LocalDatePattern.Iso.Format(stored.CurrentExamDay),
            LocalDatePattern.Iso.Format(stored.ExamDay),
            Time(stored.CreatedAt),
            stored.Evidence.Count,
            stored.Sessions.Count,
            stored.Decisions.Count,
            [.. stored.Files.Select(KeptFile.Of)],
            stored.Links.Count > 0);
    }

    /// <summary>A moment as every answer writes it.</summary>
    public static string Time(Instant at) => InstantPattern.General.Format(at);

    /// <summary>How something came, as every answer writes it.</summary>
    public static string Word(Origin origin) => origin switch
    {
        Origin.File => "file",
        Origin.Coach => "coach",
        Origin.Candidate => "candidate",
        _ => "program",
    };
}
