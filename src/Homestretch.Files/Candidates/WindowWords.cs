using System.Collections.Immutable;
using System.Text.RegularExpressions;

using Homestretch.Core.Planning.Calendar;
using Homestretch.Files.FreeTimes;
using Homestretch.Files.Sheets;

using NodaTime;

namespace Homestretch.Files.Candidates;

/// <summary>Reads weekly free time as people write it into one cell: "Mon Wed Fri 19:00-20:30; Sat 9:00-12:00".</summary>
internal static partial class WindowWords
{
    /// <summary>What is accepted, for messages.</summary>
    public const string Accepted = "days and times such as 'Mon Wed Fri 19:00-20:30; Sat 9:00-12:00', or 'none' where there is no free time";

    private enum Kind
    {
        Day,
        Time,
        Run,
        Gap,
        Odd,
    }

    /// <summary>The windows in the order of the text, none for "none"; null and what is wrong where it cannot be read.</summary>
    public static ImmutableArray<WeeklyWindow>? Parse(string text, out string problem)
    {
        problem = "";
        if (string.Equals(text, "none", StringComparison.OrdinalIgnoreCase))
        {
            return [];
        }

        (Kind Kind, string Text)[] tokens = [.. Token().Matches(text).Select(m => (KindOf(m), m.Value)).Where(t => t.Item1 != Kind.Gap)];
        List<IsoDayOfWeek> days = [];
        List<WeeklyWindow> windows = [];
        bool timed = false;
        for (int at = 0; at < tokens.Length; at++)
        {
            bool isRun = at + 2 < tokens.Length && tokens[at + 1].Kind == Kind.Run && tokens[at + 2].Kind == tokens[at].Kind;
            string? wrong;
            switch (tokens[at].Kind)
            {
                case Kind.Day:
                    string named = isRun ? $"{tokens[at].Text} to {tokens[at + 2].Text}" : tokens[at].Text;
                    if (DayNames.Parse(named, out wrong) is not { } read)
                    {
                        problem = wrong!;
                        return null;
                    }

                    if (timed)
                    {
                        days.Clear();
                        timed = false;
                    }

                    days.AddRange(read);
                    break;
                case Kind.Time when days.Count == 0:
                    problem = $"there is no day before '{Cell.Show(tokens[at].Text)}'; give {Accepted}.";
                    return null;
                case Kind.Time when !isRun:
                    problem = $"'{Cell.Show(tokens[at].Text)}' has no end beside it; give {Accepted}.";
                    return null;
                case Kind.Time:
                    if (Span(tokens[at].Text, tokens[at + 2].Text, out problem) is not { } span)
                    {
                        return null;
                    }

                    windows.AddRange(days.Select(d => new WeeklyWindow(d, span.Start, span.End)));
                    timed = true;
                    break;
                default:
                    problem = $"'{Cell.Show(tokens[at].Text)}' cannot stand where it does; give {Accepted}.";
                    return null;
            }

            at += isRun ? 2 : 0;
        }

        if (!timed)
        {
            problem = days.Count == 0 ? $"'{Cell.Show(text)}' names no day; give {Accepted}." : $"{string.Join(" and ", days)} {(days.Count == 1 ? "has" : "have")} no times; give {Accepted}.";
            return null;
        }

        return [.. windows];
    }

    private static (LocalTime Start, LocalTime End)? Span(string from, string to, out string problem)
    {
        if (ClockTime.Parse(from, out string? wrong) is not { } start || ClockTime.Parse(to, out wrong) is not { } end)
        {
            problem = wrong!;
            return null;
        }

        problem = ClockTime.SpanProblem(start, end)?.Text ?? "";
        return problem.Length == 0 ? (ClockTime.ToLocalTime(start), ClockTime.ToLocalTime(end)) : null;
    }

    private static Kind KindOf(Match match)
        => match.Groups["time"].Success ? Kind.Time
            : match.Groups["run"].Success ? Kind.Run
            : match.Groups["gap"].Success ? Kind.Gap
            : match.Groups["day"].Success ? Kind.Day
            : Kind.Odd;

    [GeneratedRegex(@"(?<time>[0-9][0-9:.]*(\s?[ap]\.?m\b\.?)?)|(?<run>[-–—]|\bto\b|\buntil\b)|(?<gap>[;,&+]|\band\b|\bfrom\b)|(?<day>\p{L}+)\.?|(?<odd>\S)", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Token();
}
