using System.Globalization;
using System.Text.RegularExpressions;

using NodaTime;

namespace Homestretch.Files.Calendars;

/// <summary>A DATE or DATE-TIME value (RFC 5545, sections 3.3.4 and 3.3.5) with the zone it is to be read in.</summary>
/// <param name="Local">Wall-clock time; midnight for a date.</param>
/// <param name="Zone">The zone of the wall clock: the property's, or the person's for dates and floating times.</param>
/// <param name="IsDate">Whether it is a whole day.</param>
internal readonly partial record struct CalendarTime(LocalDateTime Local, DateTimeZone Zone, bool IsDate)
{
    private const int EarliestYear = 1600;
    private const int LatestYear = 2199;

    /// <summary>The moment it names. RFC 5545, section 3.3.5: a time that the clock shows twice means the first; one that it skips
    /// is read with the offset before the gap, that is, moved on by its length.</summary>
    public Instant ToInstant() => IsDate ? Zone.AtStartOfDay(Local.Date).ToInstant() : Local.InZoneLeniently(Zone).ToInstant();

    /// <summary>Reads one value; null and what is wrong when it is no time.</summary>
    public static CalendarTime? Parse(string value, DateTimeZone zone, DateTimeZone personZone, out string problem)
    {
        problem = "";
        Match match = Shape().Match(value.Trim());
        if (!match.Success)
        {
            problem = $"'{CalendarComponent.Show(value)}' is not a date or a time; write 20261125 or 20261125T080000.";
            return null;
        }

        int Part(string name) => int.Parse(match.Groups[name].Value, CultureInfo.InvariantCulture);
        (int year, int month, int day) = (Part("year"), Part("month"), Part("day"));
        if (year is < EarliestYear or > LatestYear && year != 9999)
        {
            problem = $"'{CalendarComponent.Show(value)}' lies outside the years {EarliestYear} to {LatestYear}.";
            return null;
        }

        if (month is < 1 or > 12 || day < 1 || day > CalendarSystem.Iso.GetDaysInMonth(year, month))
        {
            problem = $"'{CalendarComponent.Show(value)}' is not in the calendar.";
            return null;
        }

        // Some programs write the year 9999 for "for ever".
        LocalDate date = year == 9999 ? new LocalDate(LatestYear, 12, 31) : new LocalDate(year, month, day);
        if (!match.Groups["hour"].Success)
        {
            return new CalendarTime(date.AtMidnight(), personZone, true);
        }

        (int hour, int minute, int second) = (Part("hour"), Part("minute"), Part("second"));
        if (hour > 23 || minute > 59 || second > 60)
        {
            problem = $"'{CalendarComponent.Show(value)}' is not a time of day.";
            return null;
        }

        // A leap second counts as the second before it.
        LocalDateTime local = date.At(new LocalTime(hour, minute, Math.Min(second, 59)));
        return new CalendarTime(local, match.Groups["utc"].Success ? DateTimeZone.Utc : zone, false);
    }

    [GeneratedRegex("^(?<year>[0-9]{4})(?<month>[0-9]{2})(?<day>[0-9]{2})(?:T(?<hour>[0-9]{2})(?<minute>[0-9]{2})(?<second>[0-9]{2})(?<utc>Z)?)?$", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Shape();
}
