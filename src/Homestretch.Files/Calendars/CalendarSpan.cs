using System.Globalization;
using System.Text.RegularExpressions;

using NodaTime;

namespace Homestretch.Files.Calendars;

/// <summary>How long an event lasts: whole days on the calendar, then elapsed time.</summary>
/// <remarks>RFC 5545, sections 3.3.6 and 3.8.5.3: a day of a DURATION is nominal, so it has 23 to 25 hours where clocks change, while
/// a DTEND fixes the exact length of every repetition.</remarks>
internal readonly partial record struct CalendarSpan(int Days, Duration Time)
{
    /// <summary>The end of something that begins at <paramref name="start"/>.</summary>
    public Instant EndOf(CalendarTime start)
    {
        if (Days == 0)
        {
            return start.ToInstant() + Time;
        }

        CalendarTime later = start with { Local = start.Local.PlusDays(Days) };
        return later.ToInstant() + Time;
    }

    /// <summary>The longest it can last, for finding repetitions that begin before a time and end after it.</summary>
    public Duration Longest => Duration.FromDays(Days + (Days > 0 ? 1 : 0)) + Time;

    /// <summary>Reads a DURATION that is not negative; null when it is none.</summary>
    public static CalendarSpan? Parse(string value)
    {
        Match match = Shape().Match(value.Trim());
        if (!match.Success)
        {
            return null;
        }

        int Part(string name) => match.Groups[name].Success ? int.Parse(match.Groups[name].Value, CultureInfo.InvariantCulture) : 0;
        int days = (Part("weeks") * 7) + Part("days");
        Duration time = Duration.FromHours(Part("hours")) + Duration.FromMinutes(Part("minutes")) + Duration.FromSeconds(Part("seconds"));
        bool negative = match.Groups["sign"].Value == "-";
        return negative && (days > 0 || time > Duration.Zero) ? null : new CalendarSpan(days, time);
    }

    // At least one part must follow the P and the T; five digits are more than a hundred years in hours.
    [GeneratedRegex("^(?<sign>[+-])?P(?=[0-9T])(?:(?<weeks>[0-9]{1,4})W)?(?:(?<days>[0-9]{1,5})D)?(?:T(?=[0-9])(?:(?<hours>[0-9]{1,6})H)?(?:(?<minutes>[0-9]{1,7})M)?(?:(?<seconds>[0-9]{1,8})S)?)?$", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Shape();
}
