using System.Text;

namespace Homestretch.Files.Sheets;

/// <summary>The columns that a kind of CSV file may have.</summary>
/// <typeparam name="TColumn">Names the columns in code.</typeparam>
/// <param name="firstLine">What to say where the first line names no column at all.</param>
/// <param name="known">Each column with its names: the one in messages and in the documentation first.</param>
internal sealed class SheetColumns<TColumn>(string firstLine, params (TColumn Column, string[] Names)[] known)
    where TColumn : struct, Enum
{
    private readonly Dictionary<string, TColumn> byName = known.SelectMany(k => k.Names.Select(n => (Name: Plain(n), k.Column))).ToDictionary(p => p.Name, p => p.Column, StringComparer.Ordinal);

    /// <summary>What to say where the first line names no column at all.</summary>
    public string FirstLine { get; } = firstLine;

    /// <summary>Columns that every file must have.</summary>
    public required TColumn[] Needed { get; init; }

    /// <summary>A column that is not read and so may come more than once.</summary>
    public TColumn? Unread { get; init; }

    /// <summary>What else is wrong with a header, or null.</summary>
    public Func<SheetHeader<TColumn>, string?> Lacks { get; init; } = _ => null;

    /// <summary>Every column.</summary>
    public IEnumerable<TColumn> All => known.Select(k => k.Column);

    /// <summary>The name of every column, as in messages and in the documentation.</summary>
    public IEnumerable<string> Names => known.Select(k => k.Names[0]);

    /// <summary>The name a column has in messages and in the documentation.</summary>
    public string NameOf(TColumn column) => NamesOf(column)[0];

    /// <summary>The other names of a column.</summary>
    public string[] OtherNames(TColumn column) => NamesOf(column)[1..];

    /// <summary>How many fields of a row are column names.</summary>
    public int CountKnown(IEnumerable<string> fields) => fields.Select(Plain).Where(byName.ContainsKey).Distinct(StringComparer.Ordinal).Count();

    /// <summary>Finds the column of a field of the header row.</summary>
    public bool TryFind(string field, out TColumn column) => byName.TryGetValue(Plain(field), out column);

    /// <summary>The known name nearest to a field of the header row, or null.</summary>
    public string? Nearest(string field) => NearestName.Suggest(Plain(field), known.SelectMany(k => k.Names));

    /// <summary>A field of the header row without what does not matter in it.</summary>
    public static string Plain(string field)
    {
        StringBuilder plain = new(field.Length);
        foreach (char c in Cell.Tidy(field).ToLowerInvariant())
        {
            plain.Append(c is '_' or '-' or '.' or ':' or '*' ? ' ' : c);
        }

        return Cell.Tidy(plain.ToString());
    }

    private string[] NamesOf(TColumn column) => known.First(k => EqualityComparer<TColumn>.Default.Equals(k.Column, column)).Names;
}
