namespace Homestretch.Files.Sheets;

/// <summary>Which field of a row belongs to which column.</summary>
/// <typeparam name="TColumn">Names the columns in code.</typeparam>
internal sealed class SheetHeader<TColumn>
    where TColumn : struct, Enum
{
    private readonly Dictionary<TColumn, int> places = [];
    private readonly HashSet<int> unnamed = [];
    private readonly List<int> moreUnread = [];

    private SheetHeader(SheetColumns<TColumn> columns, int fields)
    {
        Columns = columns;
        Fields = fields;
    }

    /// <summary>The columns that the file may have.</summary>
    public SheetColumns<TColumn> Columns { get; }

    /// <summary>Fields in the header row.</summary>
    public int Fields { get; }

    /// <summary>Reads the header row; null and problems when it cannot be used.</summary>
    public static SheetHeader<TColumn>? Read(SheetColumns<TColumn> columns, RowPlace place, IReadOnlyList<string> fields, ProblemList problems)
    {
        bool usable = true;
        void Problem(string message)
        {
            problems.Add(place.File, place.Line, message);
            usable = false;
        }

        if (columns.CountKnown(fields) == 0)
        {
            Problem(columns.FirstLine);
            return null;
        }

        SheetHeader<TColumn> header = new(columns, fields.Count);
        for (int i = 0; i < fields.Count; i++)
        {
            if (SheetColumns<TColumn>.Plain(fields[i]).Length == 0)
            {
                header.unnamed.Add(i);
            }
            else if (!columns.TryFind(fields[i], out TColumn column))
            {
                string hint = columns.Nearest(fields[i]) is { } near ? $" Did you mean '{near}'?" : "";
                Problem($"There is no column '{Cell.Show(fields[i])}'.{hint} Accepted: {string.Join(", ", columns.Names)}.");
            }
            else if (header.places.TryAdd(column, i))
            {
                continue;
            }
            else if (column.Equals(columns.Unread))
            {
                header.moreUnread.Add(i);
            }
            else
            {
                Problem($"The column '{columns.NameOf(column)}' is there twice ('{Cell.Show(fields[header.places[column]])}' and '{Cell.Show(fields[i])}'); keep one.");
            }
        }

        foreach (TColumn needed in columns.Needed.Where(c => !header.Has(c)))
        {
            string[] others = columns.OtherNames(needed);
            string also = others.Length == 0 ? "" : $" It may also be called {string.Join(" or ", others.Select(n => $"'{n}'"))}.";
            Problem($"The column '{columns.NameOf(needed)}' is missing.{also}");
        }

        if (columns.Lacks(header) is { } lack)
        {
            Problem(lack);
        }

        return usable ? header : null;
    }

    /// <summary>Whether the file has the column.</summary>
    public bool Has(TColumn column) => places.ContainsKey(column);

    /// <summary>The value of a column in a row, trimmed; empty where the row ends before it or the file has no such column. Where the column comes
    /// more than once, its values are one after the other.</summary>
    public string Value(TColumn column, IReadOnlyList<string> row)
    {
        string first = places.TryGetValue(column, out int place) && place < row.Count ? CsvText.Unmark(Cell.Tidy(row[place])) : "";
        return moreUnread.Count == 0 || !column.Equals(Columns.Unread)
            ? first
            : string.Join("; ", moreUnread.Where(i => i < row.Count).Select(i => CsvText.Unmark(Cell.Tidy(row[i]))).Prepend(first).Where(v => v.Length > 0));
    }

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
}
