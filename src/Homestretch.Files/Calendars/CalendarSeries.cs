using NodaTime;

namespace Homestretch.Files.Calendars;

/// <summary>All entries of a file that share a UID: series and changes to single occasions of them.</summary>
internal static class CalendarSeries
{
    /// <summary>Adds the occasions that make a person busy.</summary>
    /// <param name="busy">Where they go.</param>
    /// <param name="entries">Entries with one UID.</param>
    /// <param name="budget">What the file may still cost.</param>
    /// <param name="tooMany">Called with the line of a rule that repeats too often.</param>
    public static void AddTo(BusyIntervals busy, IReadOnlyList<CalendarEntry> entries, RecurrenceBudget budget, Action<int> tooMany)
    {
        // Of several revisions of the same thing the last one counts.
        List<CalendarEntry> changes = [.. entries.Where(e => e.Replaces is not null)
            .GroupBy(e => (Moment: e.Replaces!.Value.ToInstant(), e.Replaces.Value.IsDate))
            .Select(g => g.Aggregate((a, b) => b.Sequence >= a.Sequence ? b : a))];
        List<CalendarEntry> plain = [.. entries.Where(e => e.Replaces is null)];
        int latest = plain.Count == 0 ? 0 : plain.Max(e => e.Sequence);
        HashSet<Instant> replaced = [.. changes.Where(c => !c.Replaces!.Value.IsDate).Select(c => c.Replaces!.Value.ToInstant())];
        HashSet<LocalDate> replacedDates = [.. changes.Where(c => c.Replaces!.Value.IsDate).Select(c => c.Replaces!.Value.Local.Date)];
        List<CalendarEntry> lasting = [.. changes.Where(c => c.ThisAndFuture).OrderBy(c => c.Replaces!.Value.ToInstant())];
        Duration reach = lasting.Count == 0 ? Duration.Zero : lasting.Max(c => Magnitude(c.Start.ToInstant() - c.Replaces!.Value.ToInstant()) + c.Span.Longest);

        foreach (CalendarEntry entry in plain.Where(e => e.Sequence == latest && (e.Busy || lasting.Count > 0)))
        {
            foreach ((CalendarTime start, CalendarSpan span) in Occasions(entry, busy.Horizon, reach, budget, tooMany))
            {
                Instant moment = start.ToInstant();
                if (replaced.Contains(moment) || replacedDates.Contains(moment.InZone(entry.Start.Zone).Date))
                {
                    continue;
                }

                CalendarEntry? change = lasting.FindLast(c => c.Replaces!.Value.ToInstant() <= moment);
                if (change is null)
                {
                    if (entry.Busy)
                    {
                        busy.Add(moment, span.EndOf(start));
                    }
                }
                else if (change.Busy)
                {
                    CalendarTime moved = Moved(start, change);
                    busy.Add(moved.ToInstant(), change.Span.EndOf(moved));
                }
            }
        }

        foreach (CalendarEntry change in changes.Where(c => c.Busy))
        {
            busy.Add(change.Start.ToInstant(), change.Span.EndOf(change.Start));
        }
    }

    // Moved by as much on the wall clock as the first changed occasion was.
    private static CalendarTime Moved(CalendarTime start, CalendarEntry change)
    {
        DateTimeZone zone = change.Start.Zone;
        LocalDateTime was = change.Replaces!.Value.ToInstant().InZone(zone).LocalDateTime;
        LocalDateTime now = start.ToInstant().InZone(zone).LocalDateTime;
        return change.Start with { Local = now + Period.Between(was, change.Start.Local) };
    }

    private static List<(CalendarTime Start, CalendarSpan Span)> Occasions(
        CalendarEntry entry, Interval horizon, Duration reach, RecurrenceBudget budget, Action<int> tooMany)
    {
        Instant from = horizon.Start - entry.Span.Longest - reach;
        Instant to = horizon.End + reach;

        // The first start belongs to the series even where the rule would not give it.
        List<(CalendarTime Start, CalendarSpan Span)> occasions = [(entry.Start, entry.Span)];
        HashSet<Instant> leftOut = [];
        HashSet<LocalDate> leftOutDates = [];
        foreach (CalendarTime time in entry.LeftOut)
        {
            _ = time.IsDate ? leftOutDates.Add(time.Local.Date) : leftOut.Add(time.ToInstant());
        }

        foreach ((Ical.Net.DataTypes.RecurrenceRule rule, CalendarTime? until, int line) in entry.Rules)
        {
            if (Recurrence.Starts(rule, entry.Start, until, from, to, budget) is not { } starts)
            {
                tooMany(line);
                return [];
            }

            occasions.AddRange(starts.Select(s => (s, entry.Span)));
        }

        foreach ((Ical.Net.DataTypes.RecurrenceRule rule, CalendarTime? until, int line) in entry.Exceptions)
        {
            if (Recurrence.Starts(rule, entry.Start, until, from, to, budget) is not { } starts)
            {
                tooMany(line);
                return [];
            }

            leftOut.UnionWith(starts.Select(s => s.ToInstant()));
        }

        occasions.AddRange(entry.MoreStarts.Select(m => (m.Start, m.Span ?? entry.Span)));
        occasions.RemoveAll(o =>
        {
            Instant moment = o.Start.ToInstant();
            return leftOut.Contains(moment) || leftOutDates.Contains(moment.InZone(entry.Start.Zone).Date);
        });
        return occasions;
    }

    private static Duration Magnitude(Duration duration) => duration < Duration.Zero ? -duration : duration;
}
