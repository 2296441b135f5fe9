using System.Collections.Immutable;
using System.Text;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Files;
using Homestretch.Files.Calendars;
using Homestretch.Files.Evidences;
using Homestretch.Files.Exams;
using Homestretch.Files.FreeTimes;
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
            ImmutableArray<Attempt> attempts = Evidence(files, exam, problems, out string? candidate);
            if (problems.Count == 0 && candidate is not null && free is not null)
            {
                return new(files.Key, candidate, exam, attempts, free, busy, files.ExamDay, files.Story, files.From);
            }
        }

        return null;
    }

    private static ImmutableArray<Attempt> Evidence(CaseFiles files, Exam exam, ICollection<FileProblem> problems, out string? candidate)
    {
        candidate = null;
        NamedFile[] evidence = [.. Of(files, FileRole.Evidence)];
        if (evidence.Length == 0)
        {
            return [];
        }

        ReadResult<EvidenceSheet> read = EvidenceFile.ParseAll([.. evidence.Select(f => (f.Name, f.Content))], exam);
        Add(problems, read.Problems);
        if (read.Value is not { } sheet)
        {
            return [];
        }

        string[] names = [.. sheet.Candidates];
        string where = evidence[0].Name;
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

        return candidate is null ? [] : sheet.AttemptsOf(candidate);
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
        string text;
        try
        {
            text = StrictUtf8.GetString(file.Content.Span);
        }
        catch (DecoderFallbackException)
        {
            problems.Add(new(file.Name, 1, "This is not a text file in UTF-8; save it as UTF-8 and try again."));
            return null;
        }

        ReadResult<T> result = parse(file.Name, text.TrimStart('\uFEFF'));
        Add(problems, result.Problems);
        return result.Value;
    }

    private static void Add(ICollection<FileProblem> problems, ImmutableArray<FileProblem> more)
    {
        foreach (FileProblem problem in more)
        {
            problems.Add(problem);
        }
    }
}
