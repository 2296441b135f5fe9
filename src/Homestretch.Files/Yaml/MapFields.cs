using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Files.Yaml;

/// <summary>Reads the keys of one group strictly: unknown and repeated keys, missing and empty values, wrong kinds and ranges are problems.</summary>
internal sealed partial class MapFields
{
    private const int LongestText = 200;

    private readonly Dictionary<string, YamlEntry> entries = new(StringComparer.Ordinal);
    private readonly YamlMap map;
    private readonly YamlProblems problems;

    /// <param name="map">The group.</param>
    /// <param name="kind">What it describes, such as "a section".</param>
    /// <param name="place">Where it stands, such as "section 2"; empty at the top of the file.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="keys">All keys that may occur.</param>
    public MapFields(YamlMap map, string kind, string place, YamlProblems problems, params string[] keys)
    {
        this.map = map;
        this.problems = problems;
        Place = place;
        foreach (YamlEntry entry in map.Entries)
        {
            string key = entry.Key.Value;
            if (!keys.Contains(key, StringComparer.Ordinal))
            {
                string suggestion = !problems.IsFull && NearestName.Suggest(key, keys) is { } near ? $"; did you mean '{near}'?" : ".";
                problems.Add(entry.Key.Line, $"{YamlProblems.Show(key)} is not a key of {kind}{suggestion} Its keys are {string.Join(", ", keys)}.");
            }
            else if (!entries.TryAdd(key, entry))
            {
                problems.Add(entry.Key.Line, $"'{key}' is given twice in {kind}, first on line {entries[key].Key.Line}; keep one.");
            }
        }
    }

    /// <summary>Where the group stands, for messages; can be made more precise once the name is known.</summary>
    public string Place { get; set; }

    /// <summary>Line the group starts on.</summary>
    public int Line => map.Line;

    /// <summary>Whether the key is there, with or without a value.</summary>
    public bool Has(string key) => entries.ContainsKey(key);

    /// <summary>Line of the key, or of the group where the key is missing.</summary>
    public int LineOf(string key) => entries.TryGetValue(key, out YamlEntry? entry) ? entry.Key.Line : map.Line;

    /// <summary>Notes a problem with the value of a key.</summary>
    public void Problem(string key, string text) => problems.Add(ValueLine(key), $"{PathOf(key)}: {text}");

    /// <summary>The value, or null where it is absent (a problem when required) or empty (always a problem).</summary>
    public YamlNode? Node(string key, bool required, string accepted)
    {
        if (!entries.TryGetValue(key, out YamlEntry? entry))
        {
            if (required)
            {
                problems.Add(map.Line, Place.Length == 0 ? $"'{key}' is missing; give {accepted}." : $"{Place}: '{key}' is missing; give {accepted}.");
            }

            return null;
        }

        if (entry.Value is YamlScalar { IsEmpty: true })
        {
            Problem(key, required ? $"there is no value; give {accepted}." : $"there is no value; give {accepted}, or remove the key.");
            return null;
        }

        return entry.Value;
    }

    /// <summary>A group of keys.</summary>
    public YamlMap? Map(string key, bool required, string accepted)
    {
        YamlNode? node = Node(key, required, accepted);
        return node is null ? null : node as YamlMap ?? Wrong<YamlMap>(key, node, accepted);
    }

    /// <summary>A list, perhaps an empty one.</summary>
    public YamlList? List(string key, bool required, string accepted)
    {
        YamlNode? node = Node(key, required, accepted);
        return node is null ? null : node as YamlList ?? Wrong<YamlList>(key, node, accepted);
    }

    /// <summary>A single value as it was written, with white space collapsed.</summary>
    public string? Text(string key, bool required, string accepted)
    {
        YamlNode? node = Node(key, required, accepted);
        if (node is null)
        {
            return null;
        }

        if (node is not YamlScalar scalar)
        {
            return Wrong<string>(key, node, accepted);
        }

        if (Tidy(scalar.Value) is { } text)
        {
            return text;
        }

        string why = scalar.Value.Length > LongestText ? $"is longer than {LongestText} characters" : "holds characters that cannot be printed";
        Problem(key, $"{YamlProblems.Show(scalar.Value)} {why}; give {accepted}.");
        return null;
    }

    /// <summary>Text of several lines, which stay as they are; null where there is none.</summary>
    public string? LongText(string key, int most)
    {
        string accepted = string.Create(CultureInfo.InvariantCulture, $"text of at most {most} characters");
        YamlNode? node = Node(key, required: false, accepted);
        if (node is null)
        {
            return null;
        }

        if (node is not YamlScalar scalar)
        {
            return Wrong<string>(key, node, accepted);
        }

        string text = scalar.Value.ReplaceLineEndings("\n").Normalize(NormalizationForm.FormC);
        bool printable = text.EnumerateRunes().All(r => r.Value is '\n' or '\t' || !(Rune.IsControl(r) || r == Rune.ReplacementChar));
        if (printable && text.Length <= most)
        {
            return text;
        }

        Problem(key, $"{YamlProblems.Show(scalar.Value)} {(printable ? string.Create(CultureInfo.InvariantCulture, $"has {text.Length} characters") : "holds characters that cannot be printed")}; give {accepted}.");
        return null;
    }

    /// <summary>A whole number within a range.</summary>
    public int? Whole(string key, int least, int most, bool required, string unit)
    {
        string accepted = $"a whole number of {unit} from {least} to {most}";
        if (Text(key, required, accepted) is not { } text)
        {
            return null;
        }

        if (WholeNumber().IsMatch(text) && long.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long value))
        {
            if (value >= least && value <= most)
            {
                return (int)value;
            }

            Problem(key, $"{text} is out of range; give {accepted}.");
            return null;
        }

        Problem(key, $"{YamlProblems.Show(text)} is not accepted; give {accepted}.");
        return null;
    }

    /// <summary>A number within a range, with a decimal point if it needs one.</summary>
    public double? Number(string key, double least, double most, bool required, string accepted)
    {
        if (Text(key, required, accepted) is not { } text)
        {
            return null;
        }

        if (ParseNumber(text) is not { } value)
        {
            Problem(key, $"{YamlProblems.Show(text)} is not a number; give {accepted}.");
            return null;
        }

        if (value >= least && value <= most)
        {
            return value;
        }

        Problem(key, $"{text} is out of range; give {accepted}.");
        return null;
    }

    /// <summary>A date written year-month-day.</summary>
    public LocalDate? Date(string key, bool required)
    {
        const string accepted = "a date written year-month-day, such as 2026-02-01";
        if (Text(key, required, accepted) is not { } text)
        {
            return null;
        }

        LocalDate? date = ParseDate(text, out string? problem);
        if (problem is not null)
        {
            Problem(key, problem);
        }

        return date;
    }

    /// <summary>A date written year-month-day, from 1900 to 2199; null with the problem otherwise.</summary>
    public static LocalDate? ParseDate(string text, out string? problem)
    {
        problem = null;
        if (!IsoDate().IsMatch(text))
        {
            problem = $"{YamlProblems.Show(text)} is not accepted; give a date written year-month-day, such as 2026-02-01.";
            return null;
        }

        if (!LocalDatePattern.Iso.Parse(text).TryGetValue(default, out LocalDate date))
        {
            problem = $"there is no day {text}; give a date that exists, written year-month-day.";
            return null;
        }

        if (date.Year is < 1900 or > 2199)
        {
            problem = $"the year of {text} is out of range; give a date from 1900-01-01 to 2199-12-31.";
            return null;
        }

        return date;
    }

    /// <summary>A finite number in plain digits, or null.</summary>
    public static double? ParseNumber(string text) =>
        PlainNumber().IsMatch(text) && double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value)
            && double.IsFinite(value)
            ? value
            : null;

    /// <summary>White space collapsed and accents composed, or null when too long or not printable.</summary>
    public static string? Tidy(string text)
    {
        string collapsed = string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        foreach (Rune rune in collapsed.EnumerateRunes())
        {
            // Half a surrogate pair, written as an escape in a quoted value, is enumerated as the replacement character.
            if (Rune.IsControl(rune) || rune == Rune.ReplacementChar)
            {
                return null;
            }
        }

        return collapsed.Length is 0 or > LongestText ? null : collapsed.Normalize(NormalizationForm.FormC);
    }

    [GeneratedRegex("^[-+]?[0-9]{1,15}$", RegexOptions.CultureInvariant)]
    private static partial Regex WholeNumber();

    [GeneratedRegex(@"^[-+]?[0-9]{1,15}(\.[0-9]{1,15})?$", RegexOptions.CultureInvariant)]
    private static partial Regex PlainNumber();

    [GeneratedRegex("^[0-9]{4}-[0-9]{2}-[0-9]{2}$", RegexOptions.CultureInvariant)]
    private static partial Regex IsoDate();

    private string PathOf(string key) => Place.Length == 0 ? key : $"{Place}, {key}";

    // An empty value has no place of its own: the parser puts it where the next key starts.
    private int ValueLine(string key) =>
        entries.TryGetValue(key, out YamlEntry? entry) ? entry.Value is YamlScalar { IsEmpty: false } scalar ? scalar.Line : entry.Key.Line : map.Line;

    private T? Wrong<T>(string key, YamlNode node, string accepted)
        where T : class
    {
        string value = node is YamlScalar scalar ? YamlProblems.Show(scalar.Value) + " is a single value" : $"this is {node.Kind}";
        Problem(key, $"{value}; give {accepted}.");
        return null;
    }
}
