using System.Text;

namespace Homestretch.Files.Calendars;

/// <summary>A component of an iCalendar file: what stands between BEGIN and END.</summary>
/// <remarks>Ical.Net reads files too, but stops at the first fault and tells no line; see docs/decisions/0021-reading-calendars.md.</remarks>
internal sealed class CalendarComponent(string name, int line)
{
    /// <summary>Such as VEVENT.</summary>
    public string Name { get; } = name;

    /// <summary>Line of its BEGIN.</summary>
    public int Line { get; } = line;

    /// <summary>Its properties in the order of the file.</summary>
    public List<ContentLine> Properties { get; } = [];

    /// <summary>Components inside it.</summary>
    public List<CalendarComponent> Children { get; } = [];

    /// <summary>The first property of that name, or null.</summary>
    public ContentLine? First(string property) => Properties.Find(p => p.Name == property);

    /// <summary>All properties of that name.</summary>
    public IEnumerable<ContentLine> All(string property) => Properties.Where(p => p.Name == property);

    /// <summary>The calendars in a file.</summary>
    public static List<CalendarComponent> Read(string file, string text, ProblemList problems)
    {
        List<CalendarComponent> calendars = [];
        Stack<CalendarComponent> open = [];
        int lastLine = 0;
        bool first = true;
        foreach ((int line, string content) in Unfold(text))
        {
            lastLine = line;
            if (first)
            {
                first = false;
                if (!string.Equals(content.Trim(), "BEGIN:VCALENDAR", StringComparison.OrdinalIgnoreCase))
                {
                    problems.Add(file, line, $"This is not a calendar file: it must begin with BEGIN:VCALENDAR, not with '{Show(content)}'.");
                    return [];
                }
            }

            ContentLine? property = ContentLine.Parse(content, line);
            if (property is null)
            {
                problems.Add(file, line, $"'{Show(content)}' is not a line of a calendar; each line is NAME:value, and a continued line begins with a space.");
                continue;
            }

            if (property.Name == "BEGIN")
            {
                CalendarComponent begun = new(property.Value.Trim().ToUpperInvariant(), line);
                if (open.TryPeek(out CalendarComponent? around))
                {
                    around.Children.Add(begun);
                }
                else
                {
                    calendars.Add(begun);
                }

                open.Push(begun);
            }
            else if (property.Name == "END")
            {
                string ended = property.Value.Trim().ToUpperInvariant();
                if (!open.TryPop(out CalendarComponent? closing) || closing.Name != ended)
                {
                    problems.Add(file, line, $"END:{Show(ended)} has no BEGIN before it that it could close{(closing is null ? "" : $"; open is {Show(closing.Name)} from line {closing.Line}")}.");
                    return [];
                }
            }
            else if (open.TryPeek(out CalendarComponent? owner))
            {
                owner.Properties.Add(property);
            }
            else
            {
                problems.Add(file, line, $"'{Show(content)}' stands outside of any calendar; it must lie between BEGIN:VCALENDAR and END:VCALENDAR.");
            }
        }

        if (first)
        {
            problems.Add(file, 1, "The file is empty; a calendar file begins with BEGIN:VCALENDAR.");
        }
        else if (open.TryPeek(out CalendarComponent? unclosed))
        {
            problems.Add(file, lastLine, $"The file ends inside {Show(unclosed.Name)} (begun in line {unclosed.Line}), so it seems cut off; export it again.");
        }

        return calendars;
    }

    /// <summary>A piece of a file as a message may quote it.</summary>
    public static string Show(string value) => Sheets.Cell.Show(value);

    private static IEnumerable<(int Line, string Content)> Unfold(string text)
    {
        StringBuilder current = new();
        int begun = 0;
        int line = 0;
        using StringReader reader = new(text);
        while (reader.ReadLine() is { } raw)
        {
            line++;
            if (begun > 0 && raw.Length > 0 && raw[0] is (' ' or '\t'))
            {
                current.Append(raw, 1, raw.Length - 1);
                continue;
            }

            if (begun > 0)
            {
                yield return (begun, current.ToString());
                begun = 0;
            }

            if (raw.Trim().Length > 0)
            {
                current.Clear().Append(raw);
                begun = line;
            }
        }

        if (begun > 0)
        {
            yield return (begun, current.ToString());
        }
    }
}
