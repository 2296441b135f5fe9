using System.Text;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;
using Homestretch.Files;
using Homestretch.Files.Calendars;
using Homestretch.Files.Evidences;
using Homestretch.Files.Exams;
using Homestretch.Files.FreeTimes;
using Homestretch.Files.ItemBanks;
using Homestretch.Files.Resources;
using Homestretch.Files.StudyLogs;
using Homestretch.Store;

using NodaTime;

namespace Homestretch.Web.Cases;

/// <summary>Reads the files of a case, all of them, so that every problem is named at once.</summary>
public static class CaseReader
{
    private static readonly UTF8Encoding StrictUtf8 = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>The case; null where a file has a problem or is missing.</summary>
    /// <param name="files">Its files.</param>
    /// <param name="problems">Gets every problem in every file; a missing file is not among them.</param>
    public static ReadCase? Read(CaseFiles files, ICollection<FileProblem> problems)
    {
        ArgumentNullException.ThrowIfNull(files);
        ArgumentNullException.ThrowIfNull(problems);
        Exam? exam = Of(files, FileRole.Exam).Select(f => Text(f, problems, ExamFile.Parse)).FirstOrDefault();
        FreeTime? free = Of(files, FileRole.FreeTime).Select(f => Text(f, problems, FreeTimeFile.Parse)).FirstOrDefault();
        NamedFile? busy = Of(files, FileRole.Busy).FirstOrDefault();
        if (busy is not null)
        {
            // Any horizon shows whether the calendar can be read.
            DateTimeZone zone = free?.Zone ?? DateTimeZone.Utc;
            Interval year = new(zone.AtStartOfDay(files.ExamDay.PlusDays(-365)).ToInstant(), zone.AtStartOfDay(files.ExamDay).ToInstant());
            Text(busy, problems, (name, text) => BusyFile.Parse(name, text, zone, year));
        }

        // Topic names in the evidence mean nothing without the exam, so evidence waits until that can be read.
        if (exam is not null)
        {
            EvidenceSheet? sheet = Sheet(files, FileRole.Evidence, exam, problems);
            EvidenceSheet? cohort = Sheet(files, FileRole.Cohort, exam, problems);
            ItemBank? bank = Of(files, FileRole.ItemBank).Select(f => Bank(f, exam, problems)).FirstOrDefault();
            StudyLog? log = Log(files, exam, problems);
            string? candidate = sheet is null ? null : Candidate(files, sheet, problems);
            if (problems.Count == 0 && candidate is not null && free is not null)
            {
                return new(files.Key, new StudiedCandidate(exam, candidate, sheet!.With(cohort).Attempts, log, bank), exam, free, busy, files.ExamDay, files.Story, files.From)
                {
                    RecordedSittings = files.Sittings,
                    Resources = files.Resources is { } catalogue ? ResourceFile.Parse(catalogue.Name, catalogue.Content, exam) : null,
                };
            }
        }

        return null;
    }

    /// <summary>The exam in a file.</summary>
    public static ReadResult<Exam> Exam(NamedFile file)
    {
        ArgumentNullException.ThrowIfNull(file);
        List<FileProblem> problems = [];
        return Text(file, problems, ExamFile.Parse) is { } exam ? ReadResult<Exam>.Ok(exam) : ReadResult<Exam>.Failed(problems);
    }

    /// <summary>The text in a file's bytes, without a byte order mark; null where they are no UTF-8.</summary>
    public static string? TextOf(ReadOnlySpan<byte> content)
    {
        try
        {
            return StrictUtf8.GetString(content).TrimStart('\uFEFF');
        }
        catch (DecoderFallbackException)
        {
            return null;
        }
    }

    private static EvidenceSheet? Sheet(CaseFiles files, FileRole role, Exam exam, ICollection<FileProblem> problems)
    {
        (string, ReadOnlyMemory<byte>)[] given = [.. Of(files, role).Select(f => (f.Name, f.Content))];
        return given.Length == 0 ? null : Noted(EvidenceFile.ParseAll(given, exam), problems);
    }

    private static StudyLog? Log(CaseFiles files, Exam exam, ICollection<FileProblem> problems)
    {
        (string, ReadOnlyMemory<byte>)[] given = [.. Of(files, FileRole.StudyLog).Select(f => (f.Name, f.Content))];
        return given.Length == 0 ? null : Noted(StudyLogFile.ParseAll(given, exam), problems);
    }

    private static ItemBank? Bank(NamedFile file, Exam exam, ICollection<FileProblem> problems)
        => Noted(ItemBankFile.Parse(file.Name, file.Content, exam), problems);

    private static string? Candidate(CaseFiles files, EvidenceSheet sheet, ICollection<FileProblem> problems)
    {
        string? candidate = null;
        string[] names = [.. sheet.Candidates];
        string where = Of(files, FileRole.Evidence).First().Name;
        if (files.Candidate is { } wanted)
        {
            candidate = names.FirstOrDefault(n => string.Equals(n, wanted.Trim(), StringComparison.OrdinalIgnoreCase));
            if (candidate is null)
            {
                problems.Add(new(where, 1, $"The evidence names no candidate '{wanted}'. It names: {Listed(names)}."));
            }
        }
        else if (names.Length == 1)
        {
            candidate = names[0];
        }
        else
        {
            problems.Add(new(where, 1, names.Length == 0
                ? "The evidence holds no attempt of any candidate."
                : $"The evidence names {names.Length} candidates; say which one this case is for: {Listed(names)}."));
        }

        return candidate;
    }

    private static string Listed(string[] names)
    {
        const int Most = 12;
        return string.Join(", ", names.Take(Most)) + (names.Length > Most ? $" and {names.Length - Most} more" : "");
    }

    private static IEnumerable<NamedFile> Of(CaseFiles files, FileRole role) => files.Files.Where(f => f.Role == role);

    private static T? Text<T>(NamedFile file, ICollection<FileProblem> problems, Func<string, string, ReadResult<T>> parse)
        where T : class
    {
        if (TextOf(file.Content.Span) is { } text)
        {
            return Noted(parse(file.Name, text), problems);
        }

        problems.Add(new(file.Name, 1, "This is not a text file in UTF-8; save it as UTF-8 and try again."));
        return null;
    }

    private static T? Noted<T>(ReadResult<T> result, ICollection<FileProblem> problems)
        where T : class
    {
        foreach (FileProblem problem in result.Problems)
        {
            problems.Add(problem);
        }

        return result.Value;
    }
}
