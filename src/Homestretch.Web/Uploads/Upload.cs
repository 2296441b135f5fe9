using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;

using Homestretch.Files;
using Homestretch.Files.Candidates;
using Homestretch.Store;
using Homestretch.Web.Cases;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Web.Uploads;

/// <summary>Turns a draft into a case, or says everything that stands in the way.</summary>
public static class Upload
{
    /// <summary>Most bytes of one upload, all files together.</summary>
    public const long MostBytes = 25 * 1024 * 1024;

    /// <summary>Form fields of the files, by role.</summary>
    public static ImmutableArray<(FileRole Role, string Field)> FileFields { get; } =
        [(FileRole.Exam, "exam"), (FileRole.Evidence, "evidence"), (FileRole.FreeTime, "free"), (FileRole.Busy, "busy"), (FileRole.Cohort, "cohort"), (FileRole.ItemBank, "bank"), (FileRole.StudyLog, "log")];

    /// <summary>Form field of an exam that is kept already.</summary>
    public const string KeptExamField = "kept-exam";

    /// <summary>Form field of the exam day.</summary>
    public const string DayField = "exam-day";

    /// <summary>Form field of the candidate.</summary>
    public const string CandidateField = "candidate";

    private const int MostNameLength = CandidatesFile.MostNameLength;
    private const int MostFileNameLength = 120;

    /// <summary>Checks a draft; a case where there is no problem.</summary>
    /// <param name="draft">What was entered.</param>
    /// <param name="now">The moment of entering.</param>
    /// <param name="problems">Every problem, in the order of the form.</param>
    public static StoredCase? Check(Draft draft, Instant now, out ImmutableArray<UploadProblem> problems)
    {
        ArgumentNullException.ThrowIfNull(draft);
        List<UploadProblem> found = [];
        foreach ((FileRole role, string missing) in new[]
        {
            (FileRole.Exam, "Choose the exam file (YAML): the blueprint of the exam."),
            (FileRole.Evidence, "Choose at least one evidence file (CSV or .xlsx): answers, counts per topic, or a score report."),
            (FileRole.FreeTime, "Choose the free-time file (YAML): when there is time to study."),
        })
        {
            if (!draft.Files.Any(f => f.Role == role))
            {
                found.Add(new(FieldOf(role), missing));
            }
        }

        LocalDate? day = Day(draft.ExamDay, now, found);
        string candidate = draft.Candidate.Trim();
        if (candidate.Length > MostNameLength)
        {
            found.Add(new(CandidateField, $"The candidate's name must be at most {MostNameLength} characters long; this one has {candidate.Length}."));
        }

        // Files are read even where others are missing, so that all problems show at once.
        CaseFiles files = new("", candidate.Length == 0 ? null : candidate, day ?? now.InUtc().Date.PlusDays(1), null, null, draft.Files);
        List<FileProblem> inFiles = [];
        ReadCase? read = CaseReader.Read(files, inFiles);
        foreach (FileProblem problem in inFiles)
        {
            NamedFile? file = draft.Files.FirstOrDefault(f => f.Name == problem.File);
            found.Add(new(file is null ? CandidateField : FieldOf(file.Role), problem.ToString(), problem));
        }

        problems = [.. found];
        return found.Count > 0 || read is not { } value || day is not { } examDay
            ? null
            : Stored(value, examDay, draft.Files, now);
    }

    private static StoredCase Stored(ReadCase read, LocalDate examDay, ImmutableArray<NamedFile> files, Instant now)
    {
        NamedFile exam = files.First(f => f.Role == FileRole.Exam);
        KeptRow[] rows = [.. files.Where(f => f.Role != FileRole.Exam).SelectMany(f => KeptRows.Of(f.Role, f.Name, f.Content, now))];
        return new StoredCase
        {
            Key = Key(read.Candidate),
            Candidate = read.Candidate,
            Exam = new StoredExam
            {
                Key = NewExamKey(),
                Name = read.Exam.Name,
                Versions = [new StoredExamVersion { At = now, Name = exam.Name, Content = exam.Content.ToArray() }],
            },
            ExamDay = examDay,
            CreatedAt = now,
            Files = [.. rows.OfType<StoredFile>()],
            Evidence = [.. rows.OfType<EvidenceRow>()],
            Sessions = [.. rows.OfType<StudyRow>()],
        };
    }

    /// <summary>A key for a new exam, which cannot be guessed.</summary>
    public static string NewExamKey() => "exam-" + Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(8));

    /// <summary>The form field of a file.</summary>
    public static string FieldOf(FileRole role) => FileFields.First(f => f.Role == role).Field;

    /// <summary>Whether a field takes several files.</summary>
    public static bool TakesSeveral(FileRole role) => role is FileRole.Evidence or FileRole.Cohort or FileRole.StudyLog;

    /// <summary>Whether a field may be left empty.</summary>
    public static bool MayBeLeftOut(FileRole role) => role is FileRole.Busy or FileRole.Cohort or FileRole.ItemBank or FileRole.StudyLog;

    /// <summary>A file of a form.</summary>
    /// <param name="role">What it is for.</param>
    /// <param name="file">The file.</param>
    /// <param name="cancellation">Stops the reading.</param>
    public static async Task<NamedFile> ReadAsync(FileRole role, IFormFile file, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(file);
        return new(role, FileName(file.FileName), await BytesAsync(file, cancellation));
    }

    /// <summary>The bytes of a file of a form.</summary>
    public static async Task<byte[]> BytesAsync(IFormFile file, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(file);
        using MemoryStream content = new();
        await file.CopyToAsync(content, cancellation);
        return content.ToArray();
    }

    /// <summary>A file name as it can be shown: without folders and control characters, not too long.</summary>
    public static string FileName(string given)
    {
        ArgumentNullException.ThrowIfNull(given);
        string name = new([.. given[(given.LastIndexOfAny(['/', '\\']) + 1)..].Where(c => !char.IsControl(c))]);
        return name.Length == 0 ? "file" : name.Length <= MostFileNameLength ? name : name[..MostFileNameLength];
    }

    /// <summary>A key that is readable and cannot be guessed: <c>mara-venn-3f9c2a7e</c>.</summary>
    public static string Key(string candidate)
    {
        const int MostReadable = 40;
        StringBuilder readable = new();
        foreach (char c in candidate.Normalize(NormalizationForm.FormD))
        {
            if (char.IsAsciiLetterOrDigit(c))
            {
                readable.Append(char.ToLowerInvariant(c));
            }
            else if (readable.Length > 0 && readable[^1] != '-' && (char.IsWhiteSpace(c) || char.IsPunctuation(c)))
            {
                readable.Append('-');
            }

            if (readable.Length == MostReadable)
            {
                break;
            }
        }

        string name = readable.ToString().Trim('-');
        return (name.Length == 0 ? "case" : name) + "-" + Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(4));
    }

    private static LocalDate? Day(string text, Instant now, List<UploadProblem> found)
    {
        if (string.IsNullOrWhiteSpace(text))
        {
            found.Add(new(DayField, "Enter the day of the exam."));
            return null;
        }

        LocalDate today = now.InUtc().Date;
        LocalDate last = PreparedCase.LastExamDayFrom(today);
        ParseResult<LocalDate> day = LocalDatePattern.Iso.Parse(text.Trim());
        if (day.Success && day.Value >= today && day.Value <= last)
        {
            return day.Value;
        }

        string shown = text.Length <= 40 ? text : text[..40] + "…";
        found.Add(new(
            DayField,
            $"The exam day must be a date from {LocalDatePattern.Iso.Format(today)} to {LocalDatePattern.Iso.Format(last)}, as year-month-day; '{shown}' is not."));
        return null;
    }
}
