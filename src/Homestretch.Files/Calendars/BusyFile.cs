using System.Globalization;

using NodaTime;

namespace Homestretch.Files.Calendars;

/// <summary>Reads busy times from an iCalendar file (RFC 5545).</summary>
/// <remarks>What counts as busy and what is refused is described in docs/calendar-files.md.</remarks>
public static class BusyFile
{
    /// <summary>Reads a file.</summary>
    /// <param name="path">The file as the person named it.</param>
    /// <param name="zone">The person's zone: the one of whole days and of times without a zone.</param>
    /// <param name="horizon">Only times in it matter; it has a start and an end.</param>
    public static ReadResult<BusyTimes> Read(string path, DateTimeZone zone, Interval horizon)
    {
        ProblemList problems = new();
        return FileText.ReadBytes(path, problems) is { } bytes ? Parse(path, bytes, zone, horizon) : ReadResult<BusyTimes>.Failed(problems.InOrder());
    }

    /// <summary>Reads a file that is in memory as bytes.</summary>
    /// <param name="fileName">The name used in messages.</param>
    /// <param name="bytes">The calendar, in UTF-8 or any other encoding that can be told.</param>
    /// <param name="zone">The person's zone: the one of whole days and of times without a zone.</param>
    /// <param name="horizon">Only times in it matter; it has a start and an end.</param>
    /// <exception cref="ArgumentException">The horizon is open at an end.</exception>
    public static ReadResult<BusyTimes> Parse(string fileName, ReadOnlyMemory<byte> bytes, DateTimeZone zone, Interval horizon)
    {
        ProblemList problems = new();
        return FileText.Decode(fileName, bytes, problems) is { } text ? Parse(fileName, text, zone, horizon) : ReadResult<BusyTimes>.Failed(problems.InOrder());
    }

    /// <summary>Reads a file that is in memory as text.</summary>
    /// <param name="fileName">The name used in messages.</param>
    /// <param name="text">The calendar.</param>
    /// <param name="zone">The person's zone: the one of whole days and of times without a zone.</param>
    /// <param name="horizon">Only times in it matter; it has a start and an end.</param>
    /// <exception cref="ArgumentException">The horizon is open at an end.</exception>
    public static ReadResult<BusyTimes> Parse(string fileName, string text, DateTimeZone zone, Interval horizon)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(zone);
        if (!horizon.HasStart || !horizon.HasEnd)
        {
            throw new ArgumentException("A horizon has a start and an end.", nameof(horizon));
        }

        ProblemList problems = new();
        if (text.Length > FileText.MostBytes)
        {
            problems.Add(fileName, 1, FileText.TooLarge);
            return ReadResult<BusyTimes>.Failed(problems.InOrder());
        }

        RecurrenceBudget budget = new();
        List<CalendarComponent> calendars = CalendarComponent.Read(fileName, text, problems);
        CalendarZones zones = new(fileName, calendars, zone, horizon.End + NodaTime.Duration.FromDays(366), budget, problems);
        CalendarEntryReader reader = new(fileName, zone, zones, problems);
        List<CalendarEntry> entries = [];
        BusyIntervals busy = new(horizon);
        foreach (CalendarComponent component in calendars.SelectMany(c => c.Children))
        {
            if (component.Name == "VEVENT")
            {
                if (reader.Read(component) is { } entry)
                {
                    entries.Add(entry);
                }
            }
            else if (component.Name == "VFREEBUSY")
            {
                foreach ((Instant start, Instant end) in reader.ReadFreeBusy(component))
                {
                    busy.Add(start, end);
                }
            }
        }

        foreach (IGrouping<string, CalendarEntry> series in entries.GroupBy(e => e.Uid ?? "line " + e.Line.ToString(CultureInfo.InvariantCulture), StringComparer.Ordinal))
        {
            CalendarSeries.AddTo(busy, [.. series], budget, line => problems.Add(fileName, line, TooMany));
        }

        return problems.IsEmpty ? ReadResult<BusyTimes>.Ok(new BusyTimes(busy.Merged())) : ReadResult<BusyTimes>.Failed(problems.InOrder());
    }

    private static string TooMany =>
        $"RRULE: the event repeats too often to be read (more than {RecurrenceBudget.MostOfOneRule} times by the end of the plan, or too many in the whole file); make it repeat less often or remove it.";
}
