using NodaTime;

namespace Homestretch.Files.Sheets;

/// <summary>One row of a CSV file under its header.</summary>
/// <typeparam name="TColumn">Names the columns in code.</typeparam>
/// <param name="Place">Where it begins.</param>
/// <param name="Header">The header.</param>
/// <param name="Fields">Its fields as they stand.</param>
/// <param name="Problems">Gets what is wrong with it.</param>
internal sealed record SheetRow<TColumn>(RowPlace Place, SheetHeader<TColumn> Header, string[] Fields, ProblemList Problems)
    where TColumn : struct, Enum
{
    /// <summary>The value of a column, trimmed; empty where the row ends before it or the file has no such column.</summary>
    public string this[TColumn column] => Header.Value(column, Fields);

    /// <summary>The same, or null where it is empty.</summary>
    public string? Optional(TColumn column) => this[column] is { Length: > 0 } text ? text : null;

    /// <summary>A sentence for messages about missing values where the row is shorter than the header; empty otherwise.</summary>
    public string Short => Fields.Length < Header.Fields ? $" The row has {Fields.Length} of {Header.Fields} fields." : "";

    /// <summary>Notes what is wrong with the row.</summary>
    public void Refuse(string message) => Problems.Add(Place.File, Place.Line, message);

    /// <summary>The value of a column, or null and a problem noted where it is empty.</summary>
    /// <param name="column">The column.</param>
    /// <param name="advice">What to write, for the message.</param>
    public string? Needed(TColumn column, string advice)
    {
        string value = this[column];
        if (value.Length > 0)
        {
            return value;
        }

        Refuse($"column '{Header.Columns.NameOf(column)}' is empty; {advice}.{Short}");
        return null;
    }

    /// <summary>The date in a column, or null and a problem noted.</summary>
    /// <param name="column">The column.</param>
    /// <param name="what">What day it is, for messages.</param>
    public LocalDate? Date(TColumn column, string what)
    {
        if (Needed(column, $"write the day of {what} as 2026-11-22") is not { } text)
        {
            return null;
        }

        LocalDate? date = SheetDate.Parse(text, out string problem);
        if (date is null)
        {
            Refuse($"column '{Header.Columns.NameOf(column)}': {problem}");
        }

        return date;
    }
}
