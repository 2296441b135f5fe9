using System.Text;

using Homestretch.Files.Sheets;

namespace Homestretch.Web.Api;

/// <summary>Rows that a program sent, as a file of the same columns, so that the one reader of such files says what is wrong with them.</summary>
public static class RowText
{
    /// <summary>The name of that file, where people see it.</summary>
    public const string FileName = "rows sent by a program";

    /// <summary>The file. Its first row is line 2.</summary>
    public static byte[] Of(SheetCells sheet, IEnumerable<IReadOnlyList<string>> rows)
    {
        ArgumentNullException.ThrowIfNull(sheet);

        // A line break inside a cell would move the lines after it.
        return Encoding.UTF8.GetBytes(sheet.Write(rows.Select(r => (IReadOnlyList<string>)[.. r.Select(c => c.ReplaceLineEndings(" "))])));
    }
}
