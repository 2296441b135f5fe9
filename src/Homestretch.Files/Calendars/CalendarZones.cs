using NodaTime;
using NodaTime.TimeZones;

namespace Homestretch.Files.Calendars;

/// <summary>Finds the zone that a TZID names: in the zone database, as a Windows name, or as the file itself defines it.</summary>
internal sealed class CalendarZones
{
    private static readonly Dictionary<string, string> KnownIds = DateTimeZoneProviders.Tzdb.Ids
        .GroupBy(i => i, StringComparer.OrdinalIgnoreCase)
        .ToDictionary(g => g.Key, g => g.First(), StringComparer.OrdinalIgnoreCase);

    private static readonly Dictionary<string, string> WindowsIds = new(TzdbDateTimeZoneSource.Default.WindowsMapping.PrimaryMapping, StringComparer.OrdinalIgnoreCase);

    private readonly string file;
    private readonly DateTimeZone personZone;
    private readonly Instant last;
    private readonly RecurrenceBudget budget;
    private readonly ProblemList problems;
    private readonly Dictionary<string, CalendarComponent> defined = new(StringComparer.Ordinal);
    private readonly Dictionary<string, DateTimeZone?> resolved = new(StringComparer.Ordinal);

    /// <param name="file">Name for messages.</param>
    /// <param name="calendars">All calendars of the file.</param>
    /// <param name="personZone">The zone of times that name none.</param>
    /// <param name="last">Clock changes after this are not needed.</param>
    /// <param name="budget">What the file may still cost.</param>
    /// <param name="problems">Where problems go.</param>
    public CalendarZones(string file, IEnumerable<CalendarComponent> calendars, DateTimeZone personZone, Instant last, RecurrenceBudget budget, ProblemList problems)
    {
        this.file = file;
        this.personZone = personZone;
        this.last = last;
        this.budget = budget;
        this.problems = problems;
        foreach (CalendarComponent zone in calendars.SelectMany(c => c.Children).Where(c => c.Name == "VTIMEZONE"))
        {
            if (zone.First("TZID") is { } id)
            {
                defined.TryAdd(id.Value.Trim(), zone);
            }
        }
    }

    /// <summary>The zone of a property: the person's where it names none; null, and a problem once for each name, where it is unknown.</summary>
    public DateTimeZone? Of(ContentLine property)
    {
        if (property.Parameter("TZID") is not { Length: > 0 } raw)
        {
            return personZone;
        }

        string id = raw.Trim();
        if (resolved.TryGetValue(id, out DateTimeZone? known))
        {
            return known;
        }

        DateTimeZone? zone = Database(id);
        if (zone is null && defined.TryGetValue(id, out CalendarComponent? definition))
        {
            zone = definition.First("X-LIC-LOCATION") is { } location ? Database(location.Value.Trim()) : null;
            zone ??= Define(id, definition);
        }
        else if (zone is null)
        {
            string? near = NearestName.Suggest(id, KnownIds.Values);
            problems.Add(file, property.Line, $"{property.Name}: the time zone '{CalendarComponent.Show(id)}' is unknown and the file does not define it."
                + (near is null ? " Accepted: names such as Europe/London or GMT Standard Time, or a VTIMEZONE of that name." : $" Did you mean '{near}'?"));
        }

        resolved[id] = zone;
        return zone;
    }

    // Some programs put a prefix of their own before the database's name, as in "/example.org/20050126_1/Europe/London".
    private static DateTimeZone? Database(string id)
    {
        string rest = id;
        while (rest.Length > 0)
        {
            if (KnownIds.TryGetValue(rest, out string? known))
            {
                return DateTimeZoneProviders.Tzdb[known];
            }

            int stroke = rest.IndexOf('/', StringComparison.Ordinal);
            if (!id.StartsWith('/') || stroke < 0)
            {
                break;
            }

            rest = rest[(stroke + 1)..];
        }

        return WindowsIds.TryGetValue(id, out string? mapped) ? DateTimeZoneProviders.Tzdb.GetZoneOrNull(mapped) : DateTimeZoneProviders.Tzdb.GetZoneOrNull(id);
    }

    private FileTimeZone? Define(string id, CalendarComponent definition)
    {
        List<(Instant At, Offset From, Offset To)> changes = [];
        bool good = true;
        foreach (CalendarComponent observance in definition.Children.Where(c => c.Name is "STANDARD" or "DAYLIGHT"))
        {
            Offset? offsetFrom = ReadOffset(observance, "TZOFFSETFROM", ref good);
            Offset? offsetTo = ReadOffset(observance, "TZOFFSETTO", ref good);
            if (observance.First("DTSTART") is not { } startLine)
            {
                problems.Add(file, observance.Line, $"The time zone '{CalendarComponent.Show(id)}': {observance.Name} has no DTSTART.");
                good = false;
                continue;
            }

            if (CalendarTime.Parse(startLine.Value, DateTimeZone.Utc, DateTimeZone.Utc, out string problem) is not { } start)
            {
                problems.Add(file, startLine.Line, "DTSTART: " + problem);
                good = false;
                continue;
            }

            if (offsetFrom is not { } from || offsetTo is not { } to)
            {
                continue;
            }

            // An onset is written on the wall clock before the change.
            DateTimeZone before = DateTimeZone.ForOffset(from);
            CalendarTime first = new(start.Local, before, false);
            changes.Add((first.ToInstant(), from, to));
            foreach (ContentLine dates in observance.All("RDATE"))
            {
                foreach (string value in dates.Value.Split(','))
                {
                    if (CalendarTime.Parse(value, before, before, out problem) is { } date)
                    {
                        changes.Add(((date with { IsDate = false }).ToInstant(), from, to));
                    }
                    else
                    {
                        problems.Add(file, dates.Line, "RDATE: " + problem);
                        good = false;
                    }
                }
            }

            foreach (ContentLine line in observance.All("RRULE"))
            {
                if (RecurrenceText.Parse(line.Value, out problem) is not { } rule)
                {
                    problems.Add(file, line.Line, "RRULE: " + problem);
                    good = false;
                    continue;
                }

                CalendarTime? until = null;
                if (rule.Until is { } untilText)
                {
                    until = CalendarTime.Parse(untilText, before, before, out problem);
                    if (until is null)
                    {
                        problems.Add(file, line.Line, "RRULE: UNTIL: " + problem);
                        good = false;
                        continue;
                    }
                }

                if (Recurrence.Starts(rule.Rule, first, until, first.ToInstant(), last, budget) is not { } onsets)
                {
                    problems.Add(file, line.Line, "RRULE: a time zone cannot change its clocks this often.");
                    good = false;
                    continue;
                }

                changes.AddRange(onsets.Select(o => (o.ToInstant(), from, to)));
            }
        }

        if (good && changes.Count == 0)
        {
            problems.Add(file, definition.Line, $"The time zone '{CalendarComponent.Show(id)}' has neither STANDARD nor DAYLIGHT.");
            good = false;
        }

        return good ? FileTimeZone.Create(id, changes) : null;
    }

    private Offset? ReadOffset(CalendarComponent observance, string name, ref bool good)
    {
        if (observance.First(name) is not { } line)
        {
            problems.Add(file, observance.Line, $"{observance.Name} has no {name}.");
            good = false;
            return null;
        }

        string text = line.Value.Trim();
        bool digits = text.Length is 5 or 7 && text[0] is '+' or '-' && text.AsSpan(1).IndexOfAnyExceptInRange('0', '9') < 0;
        if (digits)
        {
            int Two(int at) => ((text[at] - '0') * 10) + text[at + 1] - '0';
            int seconds = (Two(1) * 3600) + (Two(3) * 60) + (text.Length == 7 ? Two(5) : 0);
            if (seconds <= 18 * 3600)
            {
                return Offset.FromSeconds(text[0] == '-' ? -seconds : seconds);
            }
        }

        problems.Add(file, line.Line, $"{name}: '{CalendarComponent.Show(text)}' is not an offset from UTC; write +0100 or -0530.");
        good = false;
        return null;
    }
}
