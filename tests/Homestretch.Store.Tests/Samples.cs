using System.Globalization;
using System.Security.Cryptography;
using System.Text;

using NodaTime;

namespace Homestretch.Store.Tests;

/// <summary>Invented cases.</summary>
internal static class Samples
{
    public static Instant Noon { get; } = Instant.FromUtc(2026, 11, 25, 12, 0) + Duration.FromTicks(1);

    public static StoredCase Case(string key, string candidate, Instant? created = null) => new()
    {
        Key = key,
        Candidate = candidate,
        ExamDay = new LocalDate(2026, 12, 16),
        CreatedAt = created ?? Noon,
        Exam = new StoredExam
        {
            // Made from the case's key, but without a person's name in it.
            Key = "exam-" + Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(key)).AsSpan(0, 8)),
            Name = "Registrar",
            Versions = [new StoredExamVersion { At = created ?? Noon, Name = "exam.yaml", Content = [1, 2, 3, 0, 255] }],
            Files =
            [
                new StoredExamFile { At = created ?? Noon, Role = ExamFileRole.Resources, Name = "shelf.csv", Content = [7, 0, 7] },
                new StoredExamFile { At = created ?? Noon, Role = ExamFileRole.QuizItems, Name = "items.../ö", Content = [8] },
            ],
        },
        Files =
        [
            new StoredFile { At = Noon, Origin = Origin.File, OriginFile = "free.yaml", Role = FileRole.FreeTime, Name = "free.yaml", Content = [.. Enumerable.Range(0, 20_000).Select(i => (byte)i)] },
            new StoredFile { At = Noon, Origin = Origin.File, OriginFile = "a.ics", Role = FileRole.Busy, Name = "a.ics", Content = [0xEF, 0xBB, 0xBF, 0x0D, 0x0A] },
            new StoredFile { At = Noon, Origin = Origin.File, OriginFile = "room.csv", Role = FileRole.Cohort, Name = "room.csv", Content = [] },
        ],
        Evidence = [.. Enumerable.Range(0, 3).Select(i => Item(candidate, "diagnostic", i))],
        Sessions =
        [
            new StudyRow
            {
                At = Noon, Origin = Origin.Candidate, Outcome = StudyOutcome.Partly, Candidate = candidate, Date = "2026-11-22", Topic = "Cataloguing", Minutes = "40", How = "learn",
                Note = "half, then half", PlannedStart = "2026-11-22T18:30:00+00:00", PlannedMinutes = 50,
            },
            new StudyRow { At = Noon, Origin = Origin.Candidate, Outcome = StudyOutcome.Missed, Candidate = candidate, Date = "2026-11-23", Topic = "Cataloguing", How = "quiz" },
        ],
        Plans = [new PlanVersion { At = Noon, Origin = Origin.Program, Why = "First plan.", Document = "{\"plan\": \"für Ada\"}" }],
        Decisions = [new Decision { At = Noon, Origin = Origin.Coach, Text = "Sit as planned.", Figures = "{}" }],
        Results = [new OfficialResult { At = Noon, Origin = Origin.Coach, Date = new LocalDate(2026, 12, 16), Passed = true, Score = "78 of 110" }],
        Words =
        [
            Word("frass", "dust from insects"),
            Word("orphan work", ""),
            Word("Frass", "dust and droppings; \"quoted\""),
        ],
        Recalls =
        [
            new RecallRow { At = Noon, Origin = Origin.Candidate, Term = "FRASS", Date = "2026-11-26", Outcome = "not" },
            new RecallRow { At = Noon, Origin = Origin.Candidate, Term = "frass", Date = "2026-11-27", Outcome = "knew" },
        ],
        Links = [new PersonalLink { At = Noon, Origin = Origin.Coach, PageHash = "page-of-" + key, FeedHash = "feed-of-" + key }],
    };

    public static WordRow Word(string term, string definition)
        => new() { At = Noon, Origin = Origin.Candidate, Term = term, Topic = "Cataloguing", Definition = definition, Noted = "2026-11-25" };

    public static EvidenceRow Item(string candidate, string attempt, int item) => new()
    {
        At = Noon,
        Origin = Origin.File,
        OriginFile = "a.csv",
        OriginLine = item + 2,
        Candidate = candidate,
        Attempt = attempt,
        Kind = "diagnostic",
        Date = "2026-11-20",
        Topic = "Cataloguing",
        Item = item.ToString(CultureInfo.InvariantCulture),
        Correct = "yes",
    };

    public static StoredFile File(FileRole role, string text)
        => new() { At = Noon, Origin = Origin.File, OriginFile = "sample", Role = role, Name = "sample", Content = Encoding.UTF8.GetBytes(text) };

    /// <summary>All that a row says, to compare.</summary>
    public static string All(KeptRow row)
    {
        string cells = row switch
        {
            EvidenceRow evidence => string.Join('|', evidence.Cells),
            StudyRow study => string.Join('|', study.Cells) + $"|{study.Outcome}|{study.PlannedStart}|{study.PlannedMinutes}",
            _ => throw new ArgumentException("No other rows are compared like this.", nameof(row)),
        };
        return $"{row.At}|{row.Origin}|{row.OriginFile}|{row.OriginLine}|{row.RemovedAt}|{cells}";
    }
}
