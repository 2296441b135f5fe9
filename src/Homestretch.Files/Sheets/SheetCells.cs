using System.Collections.Immutable;
using System.Text;

namespace Homestretch.Files.Sheets;

/// <summary>Takes CSV files of one kind apart into cells and puts cells together again, so that rows can be kept one by one and read later as if from a file.</summary>
public sealed class SheetCells
{
    private readonly Func<string, ReadOnlyMemory<byte>, ReadResult<SheetRows>> split;

    private SheetCells(ImmutableArray<string> columns, Func<string, ReadOnlyMemory<byte>, ReadResult<SheetRows>> split)
    {
        Columns = columns;
        this.split = split;
    }

    /// <summary>The names of the columns as the documentation gives them.</summary>
    public ImmutableArray<string> Columns { get; }

    /// <summary>The rows of a file; problems where it is no such file at all. Values are not judged.</summary>
    /// <param name="fileName">The name used in messages.</param>
    /// <param name="bytes">The file, in any encoding that spreadsheets write.</param>
    public ReadResult<SheetRows> Split(string fileName, ReadOnlyMemory<byte> bytes) => split(fileName, bytes);

    /// <summary>A file of these rows, with every column, since some rows mean something else where a column is missing.</summary>
    /// <param name="rows">Cells in the order of <see cref="Columns"/>.</param>
    public string Write(IEnumerable<IReadOnlyList<string>> rows)
    {
        ArgumentNullException.ThrowIfNull(rows);
        StringBuilder text = new();
        text.AppendJoin(',', Columns).Append('\n');
        foreach (IReadOnlyList<string> row in rows)
        {
            text.AppendJoin(',', row.Select(CsvText.Quote)).Append('\n');
        }

        return text.ToString();
    }

    internal static SheetCells Of<TColumn>(SheetColumns<TColumn> columns)
        where TColumn : struct, Enum
    {
        TColumn[] order = [.. columns.All];
        return new([.. columns.Names], (fileName, bytes) =>
        {
            ProblemList problems = new();
            List<SheetLine> lines = [];
            SheetReader.ReadAll([(fileName, bytes)], columns, problems, row => lines.Add(new(row.Place.Line, [.. order.Select(c => row[c])])));
            return problems.IsEmpty ? ReadResult<SheetRows>.Ok(new([.. lines])) : ReadResult<SheetRows>.Failed(problems.InOrder());
        });
    }
}
