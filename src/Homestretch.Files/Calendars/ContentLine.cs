namespace Homestretch.Files.Calendars;

/// <summary>One property of an iCalendar file (RFC 5545, section 3.1), unfolded.</summary>
/// <param name="Line">Line on which it begins, from 1.</param>
/// <param name="Name">Its name in capitals.</param>
/// <param name="Parameters">Parameters by name in capitals.</param>
/// <param name="Value">The raw value.</param>
internal sealed record ContentLine(int Line, string Name, IReadOnlyDictionary<string, string> Parameters, string Value)
{
    /// <summary>A parameter's value, or null.</summary>
    public string? Parameter(string name) => Parameters.TryGetValue(name, out string? value) ? value : null;

    /// <summary>Reads one unfolded line; null when it has no name and value.</summary>
    public static ContentLine? Parse(string text, int line)
    {
        int at = 0;
        while (at < text.Length && (char.IsAsciiLetterOrDigit(text[at]) || text[at] is '-' or '_' or '.'))
        {
            at++;
        }

        if (at == 0 || at == text.Length || text[at] is not (':' or ';'))
        {
            return null;
        }

        string name = text[..at].ToUpperInvariant();
        Dictionary<string, string> parameters = new(StringComparer.Ordinal);
        while (at < text.Length && text[at] == ';')
        {
            int equals = text.IndexOf('=', at);
            if (equals < 0)
            {
                return null;
            }

            string parameter = text[(at + 1)..equals].ToUpperInvariant();
            at = equals + 1;
            int start = at;
            bool quoted = false;
            while (at < text.Length && (quoted || text[at] is not (':' or ';')))
            {
                quoted ^= text[at] == '"';
                at++;
            }

            parameters[parameter] = text[start..at].Trim('"');
        }

        return at < text.Length && text[at] == ':' ? new ContentLine(line, name, parameters, text[(at + 1)..]) : null;
    }
}
