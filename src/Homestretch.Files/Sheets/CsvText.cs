using System.Buffers;
using System.Text.RegularExpressions;

namespace Homestretch.Files.Sheets;

/// <summary>Writes fields of CSV files so that a spreadsheet shows them as text, and reads them back.</summary>
/// <remarks>A spreadsheet calculates a field that begins as a formula does, and a formula can send the sheet elsewhere. Such a field gets an apostrophe in
/// front, which is how people mark text in a spreadsheet. Numbers with a sign calculate nothing and stay as they are.</remarks>
internal static partial class CsvText
{
    private static readonly SearchValues<char> NeedQuotes = SearchValues.Create(",;\t|\"\r\n");

    /// <summary>A field, in quote marks where it needs them, and marked as text where it could be taken for a formula.</summary>
    public static string Quote(string value)
    {
        string text = LooksLikeFormula().IsMatch(value) && !SignedNumber().IsMatch(value) ? "'" + value : value;
        return text.AsSpan().IndexOfAny(NeedQuotes) < 0 ? text : $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
    }

    /// <summary>The value of a field without the mark that <see cref="Quote"/> may have set.</summary>
    public static string Unmark(string field) => field.StartsWith('\'') && LooksLikeFormula().IsMatch(field) ? field[1..] : field;

    // Marks that are there already count as well, so that they are still there after reading; wide signs are formulas for some spreadsheets.
    [GeneratedRegex("^'*[-=+@\uff0d\uff1d\uff0b\uff20]", RegexOptions.CultureInvariant)]
    private static partial Regex LooksLikeFormula();

    [GeneratedRegex(@"^[-+][0-9]+([.,][0-9]+)?( ?%)?\z", RegexOptions.CultureInvariant)]
    private static partial Regex SignedNumber();
}
