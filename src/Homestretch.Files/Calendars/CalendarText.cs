using System.Text;

namespace Homestretch.Files.Calendars;

/// <summary>Writes content lines: text escaped, lines folded at 75 octets, ended by CR LF (RFC 5545, sections 3.1 and 3.3.11).</summary>
/// <remarks>Ical.Net folds between the two halves of a letter outside the basic plane, which breaks it in UTF-8.</remarks>
internal sealed class CalendarText
{
    private const int MostOctets = 75;

    private readonly StringBuilder all = new();

    /// <summary>A property whose value is written as it is.</summary>
    public void Line(string name, string value) => Fold($"{name}:{value}");

    /// <summary>A property with free text.</summary>
    public void Text(string name, string value) => Fold($"{name}:{Escape(value)}");

    /// <inheritdoc/>
    public override string ToString() => all.ToString();

    private static string Escape(string value)
    {
        StringBuilder escaped = new(value.Length);
        foreach (char c in value.ReplaceLineEndings("\n"))
        {
            _ = c switch
            {
                '\n' => escaped.Append("\\n"),
                '\\' or ';' or ',' => escaped.Append('\\').Append(c),
                // Other control characters are not allowed in a calendar.
                < ' ' and not '\t' or '\u007f' => escaped.Append(' '),
                _ => escaped.Append(c),
            };
        }

        return escaped.ToString();
    }

    private void Fold(string line)
    {
        int octets = 0;
        foreach (Rune rune in line.EnumerateRunes())
        {
            if (octets + rune.Utf8SequenceLength > MostOctets)
            {
                all.Append("\r\n ");
                octets = 1;
            }

            all.Append(rune);
            octets += rune.Utf8SequenceLength;
        }

        all.Append("\r\n");
    }
}
