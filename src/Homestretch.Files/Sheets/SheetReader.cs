using CsvHelper;

using Homestretch.Files.Archives;
using Homestretch.Files.Sheets.Workbooks;

namespace Homestretch.Files.Sheets;

/// <summary>Reads sheets, as CSV files or as spreadsheets (.xlsx), row by row. This is the one place where the bytes of a sheet become rows.</summary>
internal static class SheetReader
{
    private const int MostRecordBytes = 1024 * 1024;

    private static readonly char[] _separators = [',', ';', '\t', '|'];

    /// <summary>The files that could be opened; a problem for each of the others.</summary>
    public static List<(string FileName, ReadOnlyMemory<byte> Bytes)> Open(IReadOnlyList<string> paths, ProblemList problems)
    {
        List<(string FileName, ReadOnlyMemory<byte> Bytes)> files = [];
        foreach (string path in paths)
        {
            if (FileText.ReadBytes(path, problems) is { } bytes)
            {
                files.Add((path, bytes));
            }
        }

        return files;
    }

    /// <summary>Reads every row of every file.</summary>
    /// <param name="files">Names used in messages, and contents: CSV in any encoding that spreadsheets write, or .xlsx.</param>
    /// <param name="columns">The columns that the files may have.</param>
    /// <param name="problems">Gets what is wrong with the files as such; <paramref name="each"/> adds what is wrong with a row.</param>
    /// <param name="each">Called for every row that holds anything, except the header and rows with values beyond it.</param>
    public static void ReadAll<TColumn>(
        IReadOnlyList<(string FileName, ReadOnlyMemory<byte> Bytes)> files, SheetColumns<TColumn> columns, ProblemList problems, Action<SheetRow<TColumn>> each)
        where TColumn : struct, Enum
    {
        foreach ((string file, ReadOnlyMemory<byte> bytes) in files)
        {
            if (Workbook.IsOld(bytes.Span))
            {
                problems.Add(file, 1, "This is an old .xls spreadsheet, or one protected by a password; save it without a password as .xlsx or CSV, and give that file.");
            }
            else if (Unpacking.IsZip(bytes.Span))
            {
                Read(file, columns, problems, each, "Each value stands under the name of its column.", take => Workbook.Read(file, bytes, problems, take));
            }
            else if (FileText.Decode(file, bytes, problems) is { } text)
            {
                Read(file, columns, problems, each, "A value that holds the separator, such as a decimal comma, must be in quote marks.", take => ReadCsv(file, text, columns, problems, take));
            }
        }
    }

    // The rows of one file under their header. The source hands over the number of each row and its fields until it is told to stop, and says whether it could be read whole.
    private static void Read<TColumn>(
        string file, SheetColumns<TColumn> columns, ProblemList problems, Action<SheetRow<TColumn>> each, string strayHint, Func<Func<int, string[], bool>, bool> source)
        where TColumn : struct, Enum
    {
        SheetHeader<TColumn>? header = null;
        bool anyRow = false;
        bool refused = false;
        bool whole = source((line, fields) =>
        {
            if (Array.TrueForAll(fields, f => Cell.Tidy(f).Length == 0))
            {
                return true;
            }

            RowPlace place = new(file, line);
            if (header is null)
            {
                header = SheetHeader<TColumn>.Read(columns, place, fields, problems);
                refused = header is null;
                return !refused;
            }

            anyRow = true;
            SheetRow<TColumn> row = new(place, header, fields, problems);
            if (header.FirstStray(fields) is { } stray)
            {
                row.Refuse($"The row has {fields.Length} fields, the header {header.Fields}; '{Cell.Show(stray)}' has no column. {strayHint}");
            }
            else
            {
                each(row);
            }

            return true;
        });
        if (!whole || refused)
        {
            return;
        }

        if (header is null)
        {
            problems.Add(file, 1, "The file is empty; its first line must hold the names of the columns.");
        }
        else if (!anyRow && problems.IsEmpty)
        {
            problems.Add(file, 1, "The file holds column names but no rows.");
        }
    }

    private static bool ReadCsv<TColumn>(string file, string text, SheetColumns<TColumn> columns, ProblemList problems, Func<int, string[], bool> take)
        where TColumn : struct, Enum
    {
        (char separator, int hintLine) = FindSeparator(text, columns);
        CsvReaderOptions options = new()
        {
            Separator = separator,
            HasHeader = false,
            TrackLineNumbers = true,
            TrimWhitespace = true,
            DetectSeparatorHint = false,
            FieldCountMismatch = CsvFieldCountHandling.Allow,
            MalformedData = CsvMalformedDataHandling.Recover,
            MaxRecordSize = MostRecordBytes,
            OnMalformedRecord = record => problems.Add(file, (int)record.LineNumber, Explain(record.Reason)),
        };

        using CsvReader reader = CsvReader.FromText(text, options);
        try
        {
            while (reader.Read())
            {
                string[] fields = new string[reader.FieldCount];
                for (int i = 0; i < fields.Length; i++)
                {
                    fields[i] = reader.GetString(i);
                }

                if ((int)reader.LineNumber != hintLine && !take((int)reader.LineNumber, fields))
                {
                    break;
                }
            }

            return true;
        }
        catch (CsvFormatException)
        {
            problems.Add(file, (int)Math.Max(1, reader.LineNumber), $"A row from here on is longer than {MostRecordBytes / 1024} KB; look for a quote mark that is never closed.");
            return false;
        }
    }

    private static string Explain(CsvMalformedReason reason) => reason switch
    {
        CsvMalformedReason.UnterminatedQuote => "A quote mark opens here and is never closed; the rest of the file would be one field.",
        CsvMalformedReason.TextAfterClosingQuote => "There is text between a closing quote mark and the next separator; write a quote mark inside a quoted field twice.",
        _ => "There is a quote mark in the middle of a field; put the whole field in quote marks and write the inner one twice.",
    };

    // The separator is the one that turns the header row into the most column names; where none does, it makes no difference.
    private static (char Separator, int HintLine) FindSeparator<TColumn>(string text, SheetColumns<TColumn> columns)
        where TColumn : struct, Enum
    {
        int line = 0;
        using StringReader lines = new(text);
        while (lines.ReadLine() is { } raw)
        {
            line++;
            string tidy = Cell.Tidy(raw);

            // Some spreadsheets name the separator in a line of its own.
            if (tidy.StartsWith("sep=", StringComparison.OrdinalIgnoreCase) && raw.Trim('"', ' ', '\ufeff').Length <= 5)
            {
                char named = raw.Trim('"', ' ', '\ufeff') is { Length: 5 } hint ? hint[4] : ',';
                if (Array.IndexOf(_separators, named) >= 0)
                {
                    return (named, line);
                }
            }

            if (tidy.Trim(',', ';', '|', ' ').Length > 0)
            {
                return (_separators.MaxBy(s => columns.CountKnown(raw.Split(s).Select(f => f.Trim().Trim('"')))), 0);
            }
        }

        return (',', 0);
    }
}
