using System.Collections.Immutable;
using System.Globalization;
using System.Text;

using Homestretch.Core.Planning.Calendar;
using Homestretch.Files.Yaml;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Files.FreeTimes;

/// <summary>Reads a free-time file: when one person can study, in YAML as described in docs/free-time-file.md.</summary>
public static class FreeTimeFile
{
    private const int LongestAbsence = 366;

    private const string WindowForm = "a window with from and to, such as {day: Monday, from: 18:30, to: 20:30}";
    private const string ExtraForm = "a window with date, from and to, such as {date: 2026-12-05, from: 09:00, to: 12:00}";
    private const string DayOffForm = "a date such as 2026-12-05, or {from: 2026-12-05, to: 2026-12-07}";

    /// <summary>Reads the file at <paramref name="path"/>; a file that is missing or cannot be read is a problem as well.</summary>
    public static ReadResult<FreeTime> Read(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        YamlProblems problems = new(path);
        return Utf8File.Read(problems) is { } text ? Parse(path, text) : ReadResult<FreeTime>.Failed(problems.InFileOrder());
    }

    /// <summary>Reads the text of a free-time file.</summary>
    /// <param name="fileName">The file's name, for messages.</param>
    /// <param name="text">All of it.</param>
    public static ReadResult<FreeTime> Parse(string fileName, string text)
    {
        ArgumentNullException.ThrowIfNull(fileName);
        ArgumentNullException.ThrowIfNull(text);
        YamlProblems problems = new(fileName);
        FreeTime? free = YamlText.ReadMap(text, "zone: Europe/London", problems) is { } map ? ReadFreeTime(map, problems) : null;
        return free is not null && !problems.Any ? ReadResult<FreeTime>.Ok(free) : ReadResult<FreeTime>.Failed(problems.InFileOrder());
    }

    /// <summary>The file of some free time, which <see cref="Parse"/> reads as the same again.</summary>
    public static string Write(FreeTime free)
    {
        ArgumentNullException.ThrowIfNull(free);
        StringBuilder text = new();
        Line($"zone: {free.Zone.Id}");
        Line($"daily-cap: {free.DailyCapMinutes} min");
        Line($"weekly:{(free.Weekly.IsEmpty ? " []" : "")}");
        foreach (WeeklyWindow window in free.Weekly)
        {
            Line($"  - {{day: {window.Day}, {Span(window.Start, window.End)}}}");
        }

        if (!free.DaysOff.IsEmpty)
        {
            Line($"days-off:");
            foreach (DateInterval days in free.DaysOff)
            {
                Line($"  - {{from: {LocalDatePattern.Iso.Format(days.Start)}, to: {LocalDatePattern.Iso.Format(days.End)}}}");
            }
        }

        if (!free.Extra.IsEmpty)
        {
            Line($"extra:");
            foreach (ExtraWindow window in free.Extra)
            {
                Line($"  - {{date: {LocalDatePattern.Iso.Format(window.Date)}, {Span(window.Start, window.End)}}}");
            }
        }

        return text.ToString();

        void Line(FormattableString line) => text.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');

        static string Span(LocalTime start, LocalTime end) => $"from: {Clock(start)}, to: {(end == LocalTime.Midnight ? ClockTime.Show(ClockTime.EndOfDay) : Clock(end))}";

        static string Clock(LocalTime time) => ClockTime.Show((time.Hour * 60) + time.Minute);
    }

    private static FreeTime? ReadFreeTime(YamlMap map, YamlProblems problems)
    {
        MapFields top = new(map, "a free-time file", "", problems, "zone", "daily-cap", "weekly", "days-off", "extra");
        DateTimeZone? zone = ReadZone(top);
        int cap = ReadCap(top);
        if (!top.Has("weekly") && !top.Has("extra"))
        {
            problems.Add(top.Line, $"'weekly' and 'extra' are both missing; give {WindowForm}, or weekly: [] if there is no free time at all.");
        }

        ImmutableArray<WeeklyWindow> weekly = ReadWeekly(top, problems);
        ImmutableArray<DateInterval> daysOff = ReadDaysOff(top, problems);
        ImmutableArray<ExtraWindow> extra = ReadExtra(top, problems);
        return problems.Any ? null : new FreeTime(zone!, weekly, daysOff, extra, cap);
    }

    private static DateTimeZone? ReadZone(MapFields top)
    {
        if (top.Text("zone", required: true, ZoneNames.Accepted) is not { } text)
        {
            return null;
        }

        DateTimeZone? zone = ZoneNames.Find(text, out string? problem);
        if (problem is not null)
        {
            top.Problem("zone", problem);
        }

        return zone;
    }

    private static int ReadCap(MapFields top)
    {
        if (top.Text("daily-cap", required: false, DurationText.Accepted) is not { } text)
        {
            return FreeTime.DefaultDailyCapMinutes;
        }

        int? minutes = DurationText.ParseMinutes(text, ClockTime.EndOfDay, out string? problem);
        if (problem is not null)
        {
            top.Problem("daily-cap", problem);
        }

        return minutes ?? FreeTime.DefaultDailyCapMinutes;
    }

    private static ImmutableArray<WeeklyWindow> ReadWeekly(MapFields top, YamlProblems problems)
    {
        ImmutableArray<WeeklyWindow>.Builder windows = ImmutableArray.CreateBuilder<WeeklyWindow>();
        int number = 0;
        foreach (YamlNode node in top.List("weekly", required: false, $"a list of windows, such as [{{day: Monday, from: 18:30, to: 20:30}}]")?.Items ?? [])
        {
            string place = $"weekly window {++number}";
            if (node is not YamlMap map)
            {
                problems.Add(node.Line, $"{place}: this is {node.Kind}; give {WindowForm}.");
                continue;
            }

            MapFields fields = new(map, "a weekly window", place, problems, "day", "from", "to", "note");
            IReadOnlyList<IsoDayOfWeek> days = ReadDays(fields, problems);
            fields.Text("note", required: false, "a note in words");
            if (ReadSpan(fields) is { } span)
            {
                windows.AddRange(days.Select(d => new WeeklyWindow(d, ClockTime.ToLocalTime(span.From), ClockTime.ToLocalTime(span.To))));
            }
        }

        return windows.ToImmutable();
    }

    private static List<IsoDayOfWeek> ReadDays(MapFields fields, YamlProblems problems)
    {
        YamlNode? node = fields.Node("day", required: true, DayNames.Accepted);
        List<IsoDayOfWeek> days = [];
        if (node is null)
        {
            return days;
        }

        if (node is YamlMap or YamlList { Items.Count: 0 })
        {
            fields.Problem("day", $"there is no day here; give {DayNames.Accepted}.");
            return days;
        }

        foreach (YamlNode item in node is YamlList list ? list.Items : [node])
        {
            string? problem = null;
            IReadOnlyList<IsoDayOfWeek>? read = item is YamlScalar { IsEmpty: false } scalar
                ? DayNames.Parse(MapFields.Tidy(scalar.Value) ?? "", out problem)
                : null;
            foreach (IsoDayOfWeek day in read ?? [])
            {
                if (days.Contains(day))
                {
                    problems.Add(item.Line, $"{fields.Place}, day: {day} is given twice; keep one.");
                }

                days.Add(day);
            }

            if (read is null)
            {
                problems.Add(item.Line, $"{fields.Place}, day: {problem ?? $"this is not a day; give {DayNames.Accepted}."}");
            }
        }

        return days;
    }

    private static (int From, int To)? ReadSpan(MapFields fields)
    {
        int? from = ReadClock(fields, "from");
        int? to = ReadClock(fields, "to");
        if (from is not { } start || (to is not { } && start != ClockTime.EndOfDay))
        {
            return null;
        }

        if (ClockTime.SpanProblem(start, to ?? ClockTime.EndOfDay) is var (atStart, text))
        {
            fields.Problem(atStart ? "from" : "to", text);
            return null;
        }

        return to is { } end ? (start, end) : null;
    }

    private static int? ReadClock(MapFields fields, string key)
    {
        if (fields.Text(key, required: true, ClockTime.Accepted) is not { } text)
        {
            return null;
        }

        int? minutes = ClockTime.Parse(text, out string? problem);
        if (problem is not null)
        {
            fields.Problem(key, problem);
        }

        return minutes;
    }

    private static ImmutableArray<DateInterval> ReadDaysOff(MapFields top, YamlProblems problems)
    {
        ImmutableArray<DateInterval>.Builder days = ImmutableArray.CreateBuilder<DateInterval>();
        int number = 0;
        foreach (YamlNode node in top.List("days-off", required: false, "a list of dates, such as [2026-12-05, 2026-12-06]")?.Items ?? [])
        {
            string place = $"day off {++number}";
            switch (node)
            {
                case YamlScalar { IsEmpty: false } scalar:
                    LocalDate? date = MapFields.ParseDate(scalar.Value, out string? problem);
                    if (date is { } day)
                    {
                        days.Add(new DateInterval(day, day));
                    }
                    else
                    {
                        problems.Add(node.Line, $"{place}: {problem}");
                    }

                    break;
                case YamlMap map:
                    if (ReadAbsence(map, place, problems) is { } absence)
                    {
                        days.Add(absence);
                    }

                    break;
                default:
                    problems.Add(node.Line, $"{place}: {(node is YamlList ? "this is a list" : "there is no value")}; give {DayOffForm}.");
                    break;
            }
        }

        return days.ToImmutable();
    }

    private static DateInterval? ReadAbsence(YamlMap map, string place, YamlProblems problems)
    {
        MapFields fields = new(map, "a day off", place, problems, "date", "from", "to", "note");
        fields.Text("note", required: false, "a note in words");
        if (fields.Has("date"))
        {
            LocalDate? single = fields.Date("date", required: true);
            if (fields.Has("from") || fields.Has("to"))
            {
                fields.Problem("date", "a single date and a range are both given; give either date, or from and to.");
                return null;
            }

            return single is { } day ? new DateInterval(day, day) : null;
        }

        if (!fields.Has("from") && !fields.Has("to"))
        {
            problems.Add(fields.Line, $"{place}: there is no date; give {DayOffForm}.");
            return null;
        }

        LocalDate? from = fields.Date("from", required: true);
        LocalDate? to = fields.Date("to", required: true);
        if (from is not { } first || to is not { } last)
        {
            return null;
        }

        if (AbsenceProblem(first, last) is { } problem)
        {
            fields.Problem("to", problem);
            return null;
        }

        return new DateInterval(first, last);
    }

    /// <summary>What is wrong with an absence, or null.</summary>
    internal static string? AbsenceProblem(LocalDate first, LocalDate last)
    {
        int length = Period.DaysBetween(first, last) + 1;
        return length < 1 ? $"{last:yyyy'-'MM'-'dd} lies before {first:yyyy'-'MM'-'dd}; give the first day as from and the last as to."
            : length > LongestAbsence ? $"{length} days off are out of range; give at most {LongestAbsence} days, from the first to the last."
            : null;
    }

    private static ImmutableArray<ExtraWindow> ReadExtra(MapFields top, YamlProblems problems)
    {
        ImmutableArray<ExtraWindow>.Builder windows = ImmutableArray.CreateBuilder<ExtraWindow>();
        int number = 0;
        foreach (YamlNode node in top.List("extra", required: false, "a list of windows, such as [{date: 2026-12-05, from: 09:00, to: 12:00}]")?.Items ?? [])
        {
            string place = $"extra window {++number}";
            if (node is not YamlMap map)
            {
                problems.Add(node.Line, $"{place}: this is {node.Kind}; give {ExtraForm}.");
                continue;
            }

            MapFields fields = new(map, "an extra window", place, problems, "date", "from", "to", "note");
            LocalDate? date = fields.Date("date", required: true);
            fields.Text("note", required: false, "a note in words");
            if (ReadSpan(fields) is { } span && date is { } day)
            {
                windows.Add(new ExtraWindow(day, ClockTime.ToLocalTime(span.From), ClockTime.ToLocalTime(span.To)));
            }
        }

        return windows.ToImmutable();
    }
}
