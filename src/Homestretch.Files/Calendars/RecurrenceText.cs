using System.Globalization;
using System.Text.RegularExpressions;

using Ical.Net;
using Ical.Net.DataTypes;

namespace Homestretch.Files.Calendars;

/// <summary>Reads an RRULE (RFC 5545, section 3.3.10) and says what is wrong with it.</summary>
internal static partial class RecurrenceText
{
    /// <summary>A larger step between repetitions is taken for a slip.</summary>
    private const int MostInterval = 10000;

    private static readonly Dictionary<string, (int Low, int High)> Ranges = new(StringComparer.Ordinal)
    {
        ["BYSECOND"] = (0, 60),
        ["BYMINUTE"] = (0, 59),
        ["BYHOUR"] = (0, 23),
        ["BYMONTHDAY"] = (-31, 31),
        ["BYYEARDAY"] = (-366, 366),
        ["BYWEEKNO"] = (-53, 53),
        ["BYMONTH"] = (1, 12),
        ["BYSETPOS"] = (-366, 366),
    };

    private static readonly string[] Weekdays = ["SU", "MO", "TU", "WE", "TH", "FR", "SA"];

    /// <summary>The rule without its UNTIL, and the UNTIL as it stands; null and what is wrong when it cannot be used.</summary>
    public static (RecurrenceRule Rule, string? Until)? Parse(string value, out string problem)
    {
        RecurrenceRule rule = new();
        string? until = null;
        bool frequency = false;
        HashSet<string> seen = new(StringComparer.Ordinal);
        foreach (string part in value.Trim().Split(';', StringSplitOptions.RemoveEmptyEntries))
        {
            int equals = part.IndexOf('=', StringComparison.Ordinal);
            string key = equals < 0 ? part.ToUpperInvariant() : part[..equals].Trim().ToUpperInvariant();
            string text = equals < 0 ? "" : part[(equals + 1)..].Trim().ToUpperInvariant();
            if (!seen.Add(key))
            {
                problem = $"'{CalendarComponent.Show(key)}' is there twice.";
                return null;
            }

            if (key.StartsWith("X-", StringComparison.Ordinal))
            {
                continue;
            }

            bool good;
            switch (key)
            {
                case "FREQ":
                    good = Enum.TryParse(text, true, out FrequencyType found) && !char.IsAsciiDigit(text[0]);
                    if (good)
                    {
                        rule.Frequency = found;
                        frequency = true;
                    }

                    break;
                case "UNTIL":
                    until = text;
                    good = text.Length > 0;
                    break;
                case "COUNT":
                    good = TryInt(text, 1, int.MaxValue, out int count);
                    rule.Count = count;
                    break;
                case "INTERVAL":
                    good = TryInt(text, 1, MostInterval, out int interval);
                    rule.Interval = good ? interval : 1;
                    break;
                case "WKST":
                    good = Array.IndexOf(Weekdays, text) is >= 0 and var first && SetFirstDay(rule, first);
                    break;
                case "BYDAY":
                    good = ReadDays(text, rule);
                    break;
                default:
                    good = Ranges.ContainsKey(key) && ReadNumbers(key, text, rule);
                    if (!Ranges.ContainsKey(key))
                    {
                        problem = $"'{CalendarComponent.Show(part)}' is not a part of a recurrence rule.";
                        return null;
                    }

                    break;
            }

            if (!good)
            {
                problem = $"'{CalendarComponent.Show(part)}' will not do; {Accepted(key)}.";
                return null;
            }
        }

        if (!frequency)
        {
            problem = "FREQ is missing; it is one of YEARLY, MONTHLY, WEEKLY, DAILY, HOURLY, MINUTELY, SECONDLY.";
            return null;
        }

        if (until is not null && rule.Count is not null)
        {
            problem = "UNTIL and COUNT exclude each other; keep one.";
            return null;
        }

        problem = "";
        return (rule, until);
    }

    private static bool SetFirstDay(RecurrenceRule rule, int day)
    {
        rule.FirstDayOfWeek = (DayOfWeek)day;
        return true;
    }

    private static bool ReadDays(string text, RecurrenceRule rule)
    {
        HashSet<string> days = new(StringComparer.Ordinal);
        foreach (string day in text.Split(','))
        {
            Match match = Day().Match(day.Trim());
            if (!match.Success)
            {
                return false;
            }

            DayOfWeek weekday = (DayOfWeek)Array.IndexOf(Weekdays, match.Groups["day"].Value);
            if (!match.Groups["nth"].Success)
            {
                if (days.Add(match.Value))
                {
                    rule.ByDay.Add(new WeekDay(weekday));
                }
            }
            else if (!TryInt(match.Groups["nth"].Value.TrimStart('+'), -53, 53, out int nth) || nth == 0)
            {
                return false;
            }
            else if (days.Add(match.Value))
            {
                rule.ByDay.Add(new WeekDay(weekday, nth));
            }
        }

        return true;
    }

    private static bool ReadNumbers(string key, string text, RecurrenceRule rule)
    {
        (int low, int high) = Ranges[key];
        SortedSet<int> numbers = [];
        foreach (string number in text.Split(','))
        {
            if (!TryInt(number.Trim().TrimStart('+'), low, high, out int parsed) || (parsed == 0 && low < 0))
            {
                return false;
            }

            // A leap second counts as the second before it.
            numbers.Add(key == "BYSECOND" ? Math.Min(parsed, 59) : parsed);
        }

        List<int> list = key switch
        {
            "BYSECOND" => rule.BySecond,
            "BYMINUTE" => rule.ByMinute,
            "BYHOUR" => rule.ByHour,
            "BYMONTHDAY" => rule.ByMonthDay,
            "BYYEARDAY" => rule.ByYearDay,
            "BYWEEKNO" => rule.ByWeekNo,
            "BYMONTH" => rule.ByMonth,
            _ => rule.BySetPosition,
        };
        list.AddRange(numbers);
        return true;
    }

    private static bool TryInt(string text, int low, int high, out int number) =>
        int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out number) && number >= low && number <= high;

    private static string Accepted(string key) => key switch
    {
        "FREQ" => "it is one of YEARLY, MONTHLY, WEEKLY, DAILY, HOURLY, MINUTELY, SECONDLY",
        "UNTIL" => "it is a date or a time",
        "COUNT" => "it is a whole number from 1",
        "INTERVAL" => $"it is a whole number from 1 to {MostInterval}",
        "WKST" => "it is one of MO, TU, WE, TH, FR, SA, SU",
        "BYDAY" => "it is a list of days such as MO,WE or 2TU,-1FR",
        _ => Ranges.TryGetValue(key, out (int Low, int High) range)
            ? $"it is a list of whole numbers from {range.Low} to {range.High}{(range.Low < 0 ? " without 0" : "")}"
            : "it is not known",
    };

    [GeneratedRegex("^(?<nth>[+-]?[0-9]{1,2})?(?<day>SU|MO|TU|WE|TH|FR|SA)$", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Day();
}
