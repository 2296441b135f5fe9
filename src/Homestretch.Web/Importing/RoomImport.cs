using System.Collections.Immutable;
using System.Globalization;
using System.Text;

using Homestretch.Core.Blueprints;
using Homestretch.Files;
using Homestretch.Files.Candidates;
using Homestretch.Files.Evidences;
using Homestretch.Files.FreeTimes;
using Homestretch.Files.ItemBanks;
using Homestretch.Store;
using Homestretch.Web.Cases;
using Homestretch.Web.Exams;
using Homestretch.Web.Uploads;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Web.Importing;

/// <summary>Reads a room's files into a preview, and makes cases of the rows that a coach chose.</summary>
/// <param name="store">Knows which exams and people are here.</param>
public sealed class RoomImport(CaseStore store)
{
    /// <summary>Form field of an exam that is kept.</summary>
    public const string ExamKeyField = "exam-key";

    /// <summary>Form field of the candidates sheet.</summary>
    public const string SheetField = "sheet";

    /// <summary>Form field of the time zone for rows without one.</summary>
    public const string ZoneField = "zone";

    // Files kept with every case: a room of 500 with a large file would fill the disk.
    private const long MostSharedBytes = 500L * 1024 * 1024;

    private const int MostShown = 40;

    /// <summary>Checks a draft.</summary>
    /// <param name="draft">What was entered.</param>
    /// <param name="now">The moment of entering.</param>
    /// <param name="cancellation">Stops the checking.</param>
    /// <returns>What would be imported, or everything that stands in the way of a preview. Problems of single rows are in the preview.</returns>
    public async Task<(RoomPreview? Preview, ImmutableArray<UploadProblem> Problems)> CheckAsync(RoomDraft draft, Instant now, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(draft);
        List<UploadProblem> problems = [];
        (Exam? exam, StoredExam? joins) = await ExamAsync(draft, now, problems, cancellation);
        CandidatesSheet? sheet = Sheet(draft, now, problems);
        ImmutableArray<(string, ReadOnlyMemory<byte>)> evidenceFiles = draft.Of(FileRole.Evidence);
        if (evidenceFiles.IsEmpty)
        {
            problems.Add(new(Upload.FieldOf(FileRole.Evidence), "Choose the evidence of the room (CSV or .xlsx): answers, counts per topic, or score reports of everybody in the sheet."));
        }

        if (exam is null || joins is null)
        {
            return (null, [.. problems]);
        }

        // Topic names mean nothing without the exam.
        EvidenceSheet? evidence = evidenceFiles.IsEmpty ? null : Taken(EvidenceFile.ParseAll(evidenceFiles, exam), Upload.FieldOf(FileRole.Evidence), problems);
        if (draft.Of(FileRole.Cohort) is { IsEmpty: false } cohort)
        {
            Taken(EvidenceFile.ParseAll(cohort, exam), Upload.FieldOf(FileRole.Cohort), problems);
        }

        foreach ((string name, ReadOnlyMemory<byte> bytes) in draft.Of(FileRole.ItemBank))
        {
            Taken(ItemBankFile.Parse(name, bytes, exam), Upload.FieldOf(FileRole.ItemBank), problems);
        }

        if (evidence is null || sheet is null || problems.Count > 0)
        {
            return (null, [.. problems]);
        }

        long shared = sheet.Rows.Length * draft.Files.Where(f => f.Role is FileRole.Cohort or FileRole.ItemBank).Sum(f => (long)f.Content.Length);
        if (shared > MostSharedBytes)
        {
            problems.Add(new(Upload.FieldOf(FileRole.Cohort), string.Create(CultureInfo.InvariantCulture, $"Results of other people and the item bank are kept with every case; for {sheet.Rows.Length} candidates that would be {shared / (1024 * 1024)} MB. At most {MostSharedBytes / (1024 * 1024)} MB are kept; leave out what matters least, or import fewer at once.")));
            return (null, [.. problems]);
        }

        HashSet<string> here = new(await store.CandidatesOfAsync(joins.Key, cancellation), StringComparer.OrdinalIgnoreCase);
        string[] known = [.. evidence.Candidates];
        HashSet<string> listed = new(sheet.Rows.Select(r => r.Candidate).OfType<string>(), StringComparer.OrdinalIgnoreCase);
        string[] notInSheet = [.. known.Where(n => !listed.Contains(n))];
        ImmutableArray<RoomPerson> people = [.. sheet.Rows.Select(r => Person(r, evidence, known, notInSheet, here))];
        ILookup<string, EvidenceRow> rows = KeptRows.EvidenceByPerson(evidenceFiles, now).Value
            ?? throw new InvalidOperationException("Evidence could be read whole and not row by row.");
        return (new(exam, joins, people, [.. notInSheet], rows), []);
    }

    /// <summary>Cases of some rows of a preview, each with everything the ordinary reader needs.</summary>
    /// <param name="draft">What was entered.</param>
    /// <param name="preview">Its preview.</param>
    /// <param name="chosen">Which rows, by <see cref="RoomPerson.Id"/>; rows that are not ready are passed over.</param>
    /// <param name="now">The moment of entering.</param>
    public static ImmutableArray<StoredCase> Cases(RoomDraft draft, RoomPreview preview, IReadOnlySet<string> chosen, Instant now)
    {
        ArgumentNullException.ThrowIfNull(draft);
        ArgumentNullException.ThrowIfNull(preview);
        ArgumentNullException.ThrowIfNull(chosen);
        NamedFile[] shared = [.. draft.Files.Where(f => f.Role is FileRole.Cohort or FileRole.ItemBank)];
        return [.. preview.Ready.Where(p => chosen.Contains(p.Id)).Select(p => new StoredCase
        {
            Key = Upload.Key(p.Candidate),
            Candidate = p.Candidate,
            ExamKey = preview.Joins.Key,
            ExamDay = p.Row.ExamDay!.Value,
            CreatedAt = now,
            Files =
            [
                new StoredFile
                {
                    At = now,
                    Origin = Origin.File,
                    OriginFile = p.Row.File,
                    OriginLine = p.Row.Line,
                    Role = FileRole.FreeTime,
                    Name = "free time",
                    Content = Encoding.UTF8.GetBytes(FreeTimeFile.Write(p.Row.Free!)),
                },
                .. shared.SelectMany(f => KeptRows.Of(f.Role, f.Name, f.Content, now)).Cast<StoredFile>(),
            ],
            Evidence = [.. preview.Evidence[p.Candidate]],
        })];
    }

    private static RoomPerson Person(CandidateRow row, EvidenceSheet evidence, string[] known, string[] notInSheet, HashSet<string> here)
    {
        List<FileProblem> problems = [.. row.Problems];
        string name = row.Candidate ?? "";
        string? spelled = known.FirstOrDefault(n => string.Equals(n, name, StringComparison.OrdinalIgnoreCase));
        if (row.Candidate is not null && spelled is null)
        {
            string hint = NearestName.Suggest(name, notInSheet) is { } near ? $" Did you mean '{near}'?" : "";
            problems.Add(new(row.File, row.Line, $"column 'candidate': the evidence tells nothing of '{Shown(name)}'.{hint} Write the name as it stands there, or add this person's results."));
        }

        var attempts = evidence.AttemptsOf(name);
        return new(row, spelled ?? name, attempts.Length, attempts.Sum(a => a.Observations.Sum(o => o.ItemCount)), here.Contains(name), [.. problems]);
    }

    // The exam, and how it is kept or would be; neither where it cannot be read.
    private async Task<(Exam? Exam, StoredExam? Joins)> ExamAsync(RoomDraft draft, Instant now, List<UploadProblem> problems, CancellationToken cancellation)
    {
        string key;
        StoredExamVersion version;
        if (draft.ExamKey.Length > 0)
        {
            if (await store.CurrentVersionAsync(draft.ExamKey, cancellation) is not { } current)
            {
                problems.Add(new(ExamKeyField, "This exam is no longer here. Choose another one, or its file."));
                return (null, null);
            }

            (key, version) = (draft.ExamKey, current);
        }
        else if (draft.Files.FirstOrDefault(f => f.Role == FileRole.Exam) is { } file)
        {
            version = new StoredExamVersion { At = now, Name = file.Name, Content = file.Content.ToArray() };
            key = await store.ExamOfAsync(version.Content, cancellation) ?? Upload.NewExamKey();
        }
        else
        {
            problems.Add(new(ExamKeyField, "Choose an exam that is here already, or an exam file (YAML)."));
            return (null, null);
        }

        return Taken(ExamLibrary.Read(version), draft.ExamKey.Length > 0 ? ExamKeyField : Upload.FieldOf(FileRole.Exam), problems) is { } exam
            ? (exam, new StoredExam { Key = key, Name = exam.Name, Versions = [version] })
            : (null, null);
    }

    private static CandidatesSheet? Sheet(RoomDraft draft, Instant now, List<UploadProblem> problems)
    {
        DateTimeZone? zone = null;
        if (draft.Zone.Length > 0)
        {
            zone = ZoneNames.Find(draft.Zone, out string? wrong);
            if (wrong is not null)
            {
                problems.Add(new(ZoneField, "Time zone: " + wrong));
            }
        }

        LocalDate today = now.InZone(zone ?? DateTimeZone.Utc).Date;
        LocalDate last = PreparedCase.LastExamDayFrom(today);
        ParseResult<LocalDate>? day = draft.ExamDay.Length == 0 ? null : LocalDatePattern.Iso.Parse(draft.ExamDay);
        if (day is not null && (!day.Success || day.Value < today || day.Value > last))
        {
            problems.Add(new(Upload.DayField, $"The exam day must be a date from {LocalDatePattern.Iso.Format(today)} to {LocalDatePattern.Iso.Format(last)}, as year-month-day; '{Shown(draft.ExamDay)}' is not."));
            day = null;
        }

        if (draft.Sheet is not { } given)
        {
            problems.Add(new(SheetField, "Choose the candidates sheet (CSV or .xlsx): who prepares, and when each of them can study."));
            return null;
        }

        return Taken(CandidatesFile.Parse(given.Name, given.Content, new SheetDefaults(zone, day?.Value, today, last)), SheetField, problems);
    }

    private static T? Taken<T>(ReadResult<T> read, string field, List<UploadProblem> problems)
        where T : class
    {
        problems.AddRange(read.Problems.Select(p => new UploadProblem(field, p.ToString(), p)));
        return read.Value;
    }

    private static string Shown(string text) => text.Length <= MostShown ? text : text[..MostShown] + "…";
}
