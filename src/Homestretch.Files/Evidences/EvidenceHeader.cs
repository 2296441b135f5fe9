using System.Text;

namespace Homestretch.Files.Evidences;

/// <summary>Which field of a row belongs to which column.</summary>
internal sealed class EvidenceHeader
{
    private static readonly (EvidenceColumn Column, string[] Names)[] Known =
    [
        (EvidenceColumn.Candidate, ["candidate", "name", "person"]),
        (EvidenceColumn.Attempt, ["attempt", "test", "sitting"]),
        (EvidenceColumn.Kind, ["kind", "type"]),
        (EvidenceColumn.Date, ["date", "day"]),
        (EvidenceColumn.Topic, ["topic", "category", "subject"]),
        (EvidenceColumn.Subtopic, ["subtopic", "sub topic", "subcategory"]),
        (EvidenceColumn.Item, ["item", "question", "item no", "question no"]),
        (EvidenceColumn.Correct, ["correct", "right"]),
        (EvidenceColumn.Seconds, ["seconds", "sec", "secs"]),
        (EvidenceColumn.Sure, ["sure", "how sure", "sureness"]),
        (EvidenceColumn.Items, ["items", "questions", "total", "out of"]),
        (EvidenceColumn.Percent, ["percent", "per cent", "percentage", "%"]),
        (EvidenceColumn.Band, ["band", "percent band", "range"]),
        (EvidenceColumn.Note, ["note", "notes", "comment", "comments", "remark", "remarks"]),
        (EvidenceColumn.Chosen, ["chosen", "answer", "response", "option"]),
        (EvidenceColumn.Key, ["key", "answer key", "correct option"]),
    ];

    private static readonly Dictionary<string, EvidenceColumn> ByName =
        Known.SelectMany(k => k.Names.Select(n => (Name: n, k.Column))).ToDictionary(p => p.Name, p => p.Column, StringComparer.Ordinal);

    private readonly Dictionary<EvidenceColumn, int> places = [];
    private readonly HashSet<int> unnamed = [];

    private EvidenceHeader()
    {
    }

    /// <summary>Fields in the header row.</summary>
    public int Fields { get; private set; }

    /// <summary>The name a column has in messages and in the documentation.</summary>
    public static string NameOf(EvidenceColumn column) => Known[(int)column].Names[0];

    /// <summary>How many fields of a row are column names.</summary>
    public static int CountKnown(IEnumerable<string> fields) => fields.Select(Plain).Where(ByName.ContainsKey).Distinct(StringComparer.Ordinal).Count();

    /// <summary>Reads the header row; null and problems when it cannot be used.</summary>
    public static EvidenceHeader? Read(string file, int line, IReadOnlyList<string> fields, ProblemList problems)
    {
        EvidenceHeader header = new() { Fields = fields.Count };
        bool usable = true;
        if (CountKnown(fields) == 0)
        {
            problems.Add(file, line, "The first line must hold the names of the columns: candidate, attempt, kind, date, topic, and then item and correct, or correct and items, or percent or band. "
                + "They may be separated by comma, semicolon, tab or |.");
            return null;
        }

        for (int i = 0; i < fields.Count; i++)
        {
            string name = Plain(fields[i]);
            if (name.Length == 0)
            {
                header.unnamed.Add(i);
            }
            else if (!ByName.TryGetValue(name, out EvidenceColumn column))
            {
                string? near = NearestName.Suggest(name, ByName.Keys);
                string hint = near is null ? "" : $" Did you mean '{near}'?";
                problems.Add(file, line, $"There is no column '{Cell.Show(fields[i])}'.{hint} Accepted: {string.Join(", ", Known.Select(k => k.Names[0]))}.");
                usable = false;
            }
            else if (!header.places.TryAdd(column, i) && column != EvidenceColumn.Note)
            {
                problems.Add(file, line, $"The column '{NameOf(column)}' is there twice ('{Cell.Show(fields[header.places[column]])}' and '{Cell.Show(fields[i])}'); keep one.");
                usable = false;
            }
        }

        foreach (EvidenceColumn needed in (ReadOnlySpan<EvidenceColumn>)[EvidenceColumn.Candidate, EvidenceColumn.Attempt, EvidenceColumn.Kind, EvidenceColumn.Date, EvidenceColumn.Topic])
        {
            if (!header.places.ContainsKey(needed))
            {
                problems.Add(file, line, $"The column '{NameOf(needed)}' is missing. It may also be called {Listed(Known[(int)needed].Names[1..])}.");
                usable = false;
            }
        }

        bool byKey = header.Has(EvidenceColumn.Chosen) && header.Has(EvidenceColumn.Key);
        if (!header.Has(EvidenceColumn.Correct) && !byKey && !header.Has(EvidenceColumn.Percent) && !header.Has(EvidenceColumn.Band))
        {
            problems.Add(file, line, "No column says how the answers went: add correct (yes or no for each item, or a count beside items), percent, or band.");
            usable = false;
        }

        return usable ? header : null;
    }

    /// <summary>Whether the file has the column.</summary>
    public bool Has(EvidenceColumn column) => places.ContainsKey(column);

    /// <summary>The value of a column in a row, trimmed; empty where the row ends before it or the file has no such column.</summary>
    public string Value(EvidenceColumn column, IReadOnlyList<string> row) =>
        places.TryGetValue(column, out int place) && place < row.Count ? Cell.Tidy(row[place]) : "";

    /// <summary>The first value that stands beyond the named columns, or null.</summary>
    public string? FirstStray(IReadOnlyList<string> row)
    {
        for (int i = 0; i < row.Count; i++)
        {
            if ((i >= Fields || unnamed.Contains(i)) && Cell.Tidy(row[i]).Length > 0)
            {
                return row[i];
            }
        }

        return null;
    }

    private static string Listed(string[] names) => string.Join(" or ", names.Select(n => $"'{n}'"));

    private static string Plain(string header)
    {
        StringBuilder plain = new(header.Length);
        foreach (char c in Cell.Tidy(header).ToLowerInvariant())
        {
            plain.Append(c is '_' or '-' or '.' or ':' or '*' ? ' ' : c);
        }

        return Cell.Tidy(plain.ToString());
    }
}
