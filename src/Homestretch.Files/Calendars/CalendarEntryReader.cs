using System.Globalization;

using Ical.Net.DataTypes;

using NodaTime;

namespace Homestretch.Files.Calendars;

/// <summary>Turns components of a file into entries and notes what is wrong with them.</summary>
internal sealed class CalendarEntryReader(string file, DateTimeZone personZone, CalendarZones zones, ProblemList problems)
{
    /// <summary>Reads a VEVENT; null when it has a problem or is one of our own study blocks.</summary>
    public CalendarEntry? Read(CalendarComponent component)
    {
        string? uid = component.First("UID")?.Value.Trim();
        if (uid is not null && PlanCalendar.IsOwn(uid))
        {
            return null;
        }

        if (component.First("DTSTART") is not { } startLine)
        {
            problems.Add(file, component.Line, "The event has no DTSTART, so nobody knows when it is.");
            return null;
        }

        if (Time(startLine, startLine.Value) is not { } start)
        {
            return null;
        }

        bool good = true;
        CalendarSpan span = ReadSpan(component, start, ref good);
        CalendarTime? replaces = null;
        ContentLine? replacesLine = component.First("RECURRENCE-ID");
        if (replacesLine is not null)
        {
            replaces = Time(replacesLine, replacesLine.Value);
            good &= replaces is not null;
        }

        int sequence = 0;
        if (component.First("SEQUENCE") is { } sequenceLine && !int.TryParse(sequenceLine.Value.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out sequence))
        {
            problems.Add(file, sequenceLine.Line, $"SEQUENCE: '{CalendarComponent.Show(sequenceLine.Value)}' is not a whole number from 0.");
            good = false;
        }

        CalendarEntry entry = new()
        {
            Line = component.Line,
            Uid = uid,
            Sequence = sequence,
            Busy = !Is(component, "TRANSP", "TRANSPARENT") && !Is(component, "STATUS", "CANCELLED"),
            Start = start,
            Span = span,
            Replaces = replaces,
            ThisAndFuture = string.Equals(replacesLine?.Parameter("RANGE"), "THISANDFUTURE", StringComparison.OrdinalIgnoreCase),
        };
        foreach (ContentLine line in component.Properties)
        {
            switch (line.Name)
            {
                case "RRULE":
                    good &= ReadRule(line, start, entry.Rules);
                    break;
                case "EXRULE":
                    good &= ReadRule(line, start, entry.Exceptions);
                    break;
                case "RDATE":
                    good &= ReadDates(line, entry.MoreStarts);
                    break;
                case "EXDATE":
                    List<(CalendarTime Start, CalendarSpan? Span)> times = [];
                    good &= ReadDates(line, times);
                    entry.LeftOut.AddRange(times.Select(t => t.Start));
                    break;
                default:
                    break;
            }
        }

        return good ? entry : null;
    }

    /// <summary>The busy periods of a VFREEBUSY.</summary>
    public IReadOnlyList<(Instant Start, Instant End)> ReadFreeBusy(CalendarComponent component)
    {
        List<(CalendarTime Start, CalendarSpan? Span)> periods = [];
        foreach (ContentLine line in component.All("FREEBUSY"))
        {
            if (!string.Equals(line.Parameter("FBTYPE"), "FREE", StringComparison.OrdinalIgnoreCase))
            {
                ReadDates(line, periods);
            }
        }

        return [.. periods.Where(p => p.Span is not null).Select(p => (p.Start.ToInstant(), p.Span!.Value.EndOf(p.Start)))];
    }

    private static bool Is(CalendarComponent component, string name, string value) =>
        string.Equals(component.First(name)?.Value.Trim(), value, StringComparison.OrdinalIgnoreCase);

    private CalendarTime? Time(ContentLine line, string value)
    {
        if (zones.Of(line) is not { } zone)
        {
            return null;
        }

        CalendarTime? time = CalendarTime.Parse(value, zone, personZone, out string problem);
        if (time is null)
        {
            problems.Add(file, line.Line, $"{line.Name}: {problem}");
        }

        return time;
    }

    private CalendarSpan ReadSpan(CalendarComponent component, CalendarTime start, ref bool good)
    {
        CalendarSpan whenMissing = start.IsDate ? new CalendarSpan(1, NodaTime.Duration.Zero) : default;
        ContentLine? endLine = component.First("DTEND");
        ContentLine? durationLine = component.First("DURATION");
        if (endLine is not null && durationLine is not null)
        {
            problems.Add(file, durationLine.Line, $"DURATION: the event has a DTEND too (line {endLine.Line}); keep one.");
            good = false;
        }
        else if (durationLine is not null)
        {
            if (CalendarSpan.Parse(durationLine.Value) is { } span)
            {
                return span;
            }

            problems.Add(file, durationLine.Line, $"DURATION: '{CalendarComponent.Show(durationLine.Value)}' is not a length of time; write PT45M or P1DT2H.");
            good = false;
        }
        else if (endLine is not null)
        {
            if (Time(endLine, endLine.Value) is not { } end)
            {
                good = false;
            }
            else if (end.IsDate != start.IsDate)
            {
                problems.Add(file, endLine.Line, "DTEND: of DTSTART and DTEND one is a date and the other a time; both must be the same.");
                good = false;
            }
            else if (start.IsDate ? end.Local < start.Local : end.ToInstant() < start.ToInstant())
            {
                problems.Add(file, endLine.Line, $"DTEND: '{CalendarComponent.Show(endLine.Value)}' lies before DTSTART.");
                good = false;
            }
            else
            {
                // Some programs give a single whole day the same date twice.
                return start.IsDate
                    ? new CalendarSpan(Math.Max(1, NodaTime.Period.DaysBetween(start.Local.Date, end.Local.Date)), NodaTime.Duration.Zero)
                    : new CalendarSpan(0, end.ToInstant() - start.ToInstant());
            }
        }

        return whenMissing;
    }

    private bool ReadRule(ContentLine line, CalendarTime start, List<(RecurrenceRule, CalendarTime?, int)> rules)
    {
        if (RecurrenceText.Parse(line.Value, out string problem) is not { } parsed)
        {
            problems.Add(file, line.Line, $"{line.Name}: {problem}");
            return false;
        }

        if (start.IsDate && parsed.Rule.Frequency < Ical.Net.FrequencyType.Daily)
        {
            problems.Add(file, line.Line, $"{line.Name}: a whole-day event cannot repeat more often than daily.");
            return false;
        }

        CalendarTime? until = null;
        if (parsed.Until is { } text)
        {
            until = CalendarTime.Parse(text, start.Zone, start.Zone, out problem);
            if (until is null)
            {
                problems.Add(file, line.Line, $"{line.Name}: UNTIL: {problem}");
                return false;
            }
        }

        rules.Add((parsed.Rule, until, line.Line));
        return true;
    }

    private bool ReadDates(ContentLine line, List<(CalendarTime Start, CalendarSpan? Span)> dates)
    {
        if (zones.Of(line) is not { } zone)
        {
            return false;
        }

        bool good = true;
        foreach (string value in line.Value.Split(',', StringSplitOptions.RemoveEmptyEntries))
        {
            string[] ends = value.Split('/');
            CalendarTime? start = CalendarTime.Parse(ends[0], zone, personZone, out string problem);
            CalendarSpan? span = null;
            if (start is { } s && ends.Length == 2)
            {
                span = ends[1].Contains('P', StringComparison.OrdinalIgnoreCase)
                    ? CalendarSpan.Parse(ends[1])
                    : CalendarTime.Parse(ends[1], zone, personZone, out _) is { } end && end.ToInstant() >= s.ToInstant()
                        ? new CalendarSpan(0, end.ToInstant() - s.ToInstant())
                        : null;
            }

            if (start is null || ends.Length > 2 || (ends.Length == 2 && span is null))
            {
                problems.Add(file, line.Line, $"{line.Name}: " + (start is null ? problem : $"'{CalendarComponent.Show(value)}' is not a period; write start/end or start/length, with the end after the start."));
                good = false;
                continue;
            }

            dates.Add((start.Value, span));
        }

        return good;
    }
}
