using System.Buffers;

namespace Homestretch.Files.Sheets;

/// <summary>Writes fields of CSV files.</summary>
internal static class CsvText
{
    private static readonly SearchValues<char> NeedQuotes = SearchValues.Create(",;\t|\"\r\n");

    /// <summary>A field, in quote marks where it needs them.</summary>
    public static string Quote(string value)
        => value.AsSpan().IndexOfAny(NeedQuotes) < 0 ? value : $"\"{value.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
}
