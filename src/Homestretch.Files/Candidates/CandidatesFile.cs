using System.Collections.Immutable;
using System.Text.RegularExpressions;

using Homestretch.Core.Planning.Calendar;
using Homestretch.Files.FreeTimes;
using Homestretch.Files.Sheets;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Files.Candidates;

/// <summary>Reads candidates sheets (CSV or .xlsx), described in docs/candidates-sheet.md. A row with problems does not spoil the others.</summary>
public static partial class CandidatesFile
{
    /// <summary>Most rows of one sheet.</summary>
    public const int MostRows = 500;

    /// <summary>Most characters of a name.</summary>
    public const int MostNameLength = 200;

    private const string DaysOffAccepted = "write dates such as '2026-12-05; 2026-12-12 to 2026-12-13', or leave it empty";

    private static readonly SheetColumns<CandidatesColumn> _columns = new(
        "The first line must hold the names of the columns: candidate, free and, if you like, exam day, zone, daily limit and days off.",
        (CandidatesColumn.Candidate, ["candidate", "name", "person"]),
        (CandidatesColumn.ExamDay, ["exam day", "exam", "exam date"]),
        (CandidatesColumn.Free, ["free", "free time", "windows"]),
        (CandidatesColumn.Zone, ["zone", "time zone"]),
        (CandidatesColumn.DailyLimit, ["daily limit", "daily cap", "most a day"]),
        (CandidatesColumn.DaysOff, ["days off", "day off", "away"]),
        (CandidatesColumn.Note, ["note", "notes", "comment", "comments", "remark", "remarks"]))
    {
        Needed = [CandidatesColumn.Candidate, CandidatesColumn.Free],
        Unread = CandidatesColumn.Note,
    };

    /// <summary>Reads a sheet that is in memory.</summary>
    /// <param name="fileName">The name used in messages.</param>
    /// <param name="bytes">CSV in any encoding that spreadsheets write, or .xlsx.</param>
    /// <param name="defaults">What holds where a row says nothing.</param>
    /// <returns>Every row; problems only where it is no such sheet at all.</returns>
    public static ReadResult<CandidatesSheet> Parse(string fileName, ReadOnlyMemory<byte> bytes, SheetDefaults defaults)
    {
        ArgumentNullException.ThrowIfNull(defaults);
        ProblemList problems = new();
        List<CandidateRow> rows = [];
        Dictionary<string, RowPlace> seen = new(StringComparer.OrdinalIgnoreCase);
        SheetReader.ReadAll([(fileName, bytes)], _columns, problems, row => rows.Add(ReadRow(row with { Problems = new ProblemList() }, defaults, seen)));
        if (rows.Count > MostRows)
        {
            problems.Add(fileName, rows[MostRows].Line, $"The sheet has {rows.Count} rows; at most {MostRows} candidates are imported at once. Take it apart.");
        }

        return problems.IsEmpty ? ReadResult<CandidatesSheet>.Ok(new([.. rows])) : ReadResult<CandidatesSheet>.Failed(problems.InOrder());
    }

    private static CandidateRow ReadRow(SheetRow<CandidatesColumn> row, SheetDefaults defaults, Dictionary<string, RowPlace> seen)
    {
        string? name = Name(row, seen);
        LocalDate? examDay = ExamDay(row, defaults);
        DateTimeZone? zone = Zone(row, defaults);
        ImmutableArray<WeeklyWindow>? weekly = Weekly(row);
        int limit = DailyLimit(row);
        ImmutableArray<DateInterval> daysOff = DaysOff(row);
        FreeTime? free = zone is not null && weekly is { } windows ? new FreeTime(zone, windows, daysOff, [], limit) : null;
        return new(row.Place.File, row.Place.Line, name, examDay, free, [.. row.Problems.InOrder()]);
    }

    private static string? Name(SheetRow<CandidatesColumn> row, Dictionary<string, RowPlace> seen)
    {
        if (row.Needed(CandidatesColumn.Candidate, "write the person's name as it stands in the evidence") is not { } name)
        {
            return null;
        }

        if (name.Length > MostNameLength)
        {
            row.Refuse($"column 'candidate': '{Cell.Show(name)}' has {name.Length} characters; write a name of at most {MostNameLength}.");
            return null;
        }

        if (!seen.TryAdd(name, row.Place))
        {
            row.Refuse($"column 'candidate': '{Cell.Show(name)}' stands {seen[name].Seen(row.Place)} already; write each person once.");
        }

        return name;
    }

    private static LocalDate? ExamDay(SheetRow<CandidatesColumn> row, SheetDefaults defaults)
    {
        LocalDate? day = row[CandidatesColumn.ExamDay].Length == 0 && defaults.ExamDay is { } common ? common : row.Date(CandidatesColumn.ExamDay, "the exam");
        if (day is { } given && (given < defaults.First || given > defaults.Last))
        {
            row.Refuse($"column 'exam day': {LocalDatePattern.Iso.Format(given)} {(given < defaults.First ? "has passed" : "is too far away to plan for")}; give a day from {LocalDatePattern.Iso.Format(defaults.First)} to {LocalDatePattern.Iso.Format(defaults.Last)}.");
            return null;
        }

        return day;
    }

    private static DateTimeZone? Zone(SheetRow<CandidatesColumn> row, SheetDefaults defaults)
    {
        if (row.Optional(CandidatesColumn.Zone) is not { } text)
        {
            if (defaults.Zone is null)
            {
                row.Needed(CandidatesColumn.Zone, $"write {ZoneNames.Accepted}, or give one for everybody beside the sheet");
            }

            return defaults.Zone;
        }

        DateTimeZone? zone = ZoneNames.Find(text, out string? problem);
        if (problem is not null)
        {
            row.Refuse($"column 'zone': {problem}");
        }

        return zone;
    }

    private static ImmutableArray<WeeklyWindow>? Weekly(SheetRow<CandidatesColumn> row)
    {
        if (row.Needed(CandidatesColumn.Free, $"write {WindowWords.Accepted}") is not { } text)
        {
            return null;
        }

        ImmutableArray<WeeklyWindow>? windows = WindowWords.Parse(text, out string problem);
        if (windows is null)
        {
            row.Refuse($"column 'free': {problem}");
        }

        return windows;
    }

    private static int DailyLimit(SheetRow<CandidatesColumn> row)
    {
        if (row.Optional(CandidatesColumn.DailyLimit) is not { } text)
        {
            return FreeTime.DefaultDailyCapMinutes;
        }

        int? minutes = DurationText.ParseMinutes(text, ClockTime.EndOfDay, out string? problem);
        if (problem is not null)
        {
            row.Refuse($"column 'daily limit': {problem}");
        }

        return minutes ?? FreeTime.DefaultDailyCapMinutes;
    }

    private static ImmutableArray<DateInterval> DaysOff(SheetRow<CandidatesColumn> row)
    {
        List<DateInterval> days = [];
        foreach (string piece in row[CandidatesColumn.DaysOff].Split([';', ','], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            string[] ends = Run().Split(piece);
            string problem = "";
            LocalDate? first = SheetDate.Parse(ends[0], out problem);
            LocalDate? last = ends.Length > 1 && first is not null ? SheetDate.Parse(ends[1], out problem) : first;
            if (ends.Length > 2)
            {
                row.Refuse($"column 'days off': '{Cell.Show(piece)}' has more than two ends; {DaysOffAccepted}.");
            }
            else if (first is not { } from || last is not { } to)
            {
                row.Refuse($"column 'days off': {problem} Several: {DaysOffAccepted}.");
            }
            else if (FreeTimeFile.AbsenceProblem(from, to) is { } wrong)
            {
                row.Refuse($"column 'days off': {wrong}");
            }
            else
            {
                days.Add(new DateInterval(from, to));
            }
        }

        return [.. days];
    }

    [GeneratedRegex(@"\s+to\s+|\s*[–—]\s*", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Run();
}
