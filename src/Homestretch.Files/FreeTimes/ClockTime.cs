using System.Globalization;
using System.Text.RegularExpressions;

using Homestretch.Files.Yaml;

using NodaTime;

namespace Homestretch.Files.FreeTimes;

/// <summary>Reads times of day as minutes from midnight, so that 24:00 can be told from 00:00.</summary>
internal static partial class ClockTime
{
    /// <summary>Minutes in a day; the end of the day.</summary>
    public const int EndOfDay = 24 * 60;

    /// <summary>What is accepted, for messages.</summary>
    public const string Accepted = "a time on the 24-hour clock, such as 18:30";

    /// <summary>Minutes from midnight, 0 to 1440, or null with what is wrong.</summary>
    public static int? Parse(string text, out string? problem)
    {
        problem = null;
        Match match = HoursAndMinutes().Match(text);
        if (match.Success)
        {
            int hours = Int(match.Groups["h"]);
            int minutes = Int(match.Groups["m"]);
            if (minutes < 60 && (hours < 24 || (hours == 24 && minutes == 0)))
            {
                return (hours * 60) + minutes;
            }

            problem = $"{YamlProblems.Show(text)} is not a time of day; give one from 00:00 to 24:00, such as 18:30.";
            return null;
        }

        problem = Meant(text) is { } meant
            ? $"{YamlProblems.Show(text)} is not accepted; did you mean {meant}? Give {Accepted}."
            : $"{YamlProblems.Show(text)} is not accepted; give {Accepted}.";
        return null;
    }

    /// <summary>What is wrong with a window from one time to another, both in minutes from midnight, and whether that lies in its start; null where nothing is.</summary>
    public static (bool AtStart, string Text)? SpanProblem(int start, int end)
        => start == EndOfDay ? (true, "24:00 is the end of the day, so nothing can start there; give 00:00 for its beginning.")
            : end == 0 ? (false, "00:00 is the beginning of the day; write 24:00 for its end.")
            : end == start ? (false, $"the window ends at {Show(end)}, when it starts; give a later time.")
            : end < start ? (false, $"the window ends at {Show(end)}, before it starts at {Show(start)}; give a later time. For a window past midnight give two: {Show(start)} to 24:00, and 00:00 to {Show(end)} on the next day.")
            : null;

    /// <summary>The time as it is written.</summary>
    public static string Show(int minutes) => string.Create(CultureInfo.InvariantCulture, $"{minutes / 60:00}:{minutes % 60:00}");

    /// <summary>The time on the wall clock; the end of the day is midnight.</summary>
    public static LocalTime ToLocalTime(int minutes) => LocalTime.FromMinutesSinceMidnight(minutes % EndOfDay);

    private static string? Meant(string text)
    {
        Match match = TwelveHours().Match(text);
        if (match.Success && Int(match.Groups["h"]) is >= 1 and <= 12 and var hour)
        {
            int minutes = match.Groups["m"].Success ? Int(match.Groups["m"]) : 0;
            bool afternoon = match.Groups["half"].Value is "p" or "P";
            return minutes < 60 ? Show((((hour % 12) + (afternoon ? 12 : 0)) * 60) + minutes) : null;
        }

        match = OtherSeparator().Match(text);
        if (match.Success && Int(match.Groups["h"]) <= 23)
        {
            int minutes = match.Groups["m"].Success ? Int(match.Groups["m"]) : 0;
            return minutes < 60 ? Show((Int(match.Groups["h"]) * 60) + minutes) : null;
        }

        // A program that follows YAML 1.1 rewrites 18:30 as 18 * 60 + 30.
        return int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int rewritten) && rewritten is >= 60 and < EndOfDay ? Show(rewritten) : null;
    }

    private static int Int(Group group) => int.Parse(group.ValueSpan, NumberStyles.None, CultureInfo.InvariantCulture);

    [GeneratedRegex("^(?<h>[0-9]{1,2}):(?<m>[0-9]{2})$", RegexOptions.CultureInvariant)]
    private static partial Regex HoursAndMinutes();

    [GeneratedRegex(@"^(?<h>[0-9]{1,2})([:.](?<m>[0-9]{2}))?\s*(?<half>[ap])\.?m\.?$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex TwelveHours();

    [GeneratedRegex(@"^(?<h>[0-9]{1,2})(\s*[.h]\s*(?<m>[0-9]{2})|\s*h|:(?<m>[0-9]{2}):[0-9]{2}|\s*o'clock)?$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex OtherSeparator();
}
