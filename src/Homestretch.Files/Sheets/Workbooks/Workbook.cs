using System.Globalization;
using System.Text;
using System.Xml;

using DocumentFormat.OpenXml;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Spreadsheet;

using Homestretch.Files.Archives;

namespace Homestretch.Files.Sheets.Workbooks;

/// <summary>Reads spreadsheets (.xlsx, ECMA-376) row by row, as if they had been saved as CSV. Links to other files, macros and pictures are never followed or run.</summary>
internal sealed class Workbook
{
    private readonly string file;
    private readonly ProblemList problems;
    private readonly WorkbookPart part;
    private readonly List<string> strings = [];
    private readonly List<NumberLook> looks = [];
    private bool from1904;

    // Text handed out, so that one long text that many cells share costs no more than the same text in a CSV file.
    private long handedOut;

    private Workbook(string file, ProblemList problems, WorkbookPart part)
    {
        this.file = file;
        this.problems = problems;
        this.part = part;
    }

    /// <summary>Whether bytes are a spreadsheet of the old kind, or a protected one: both are the same kind of container.</summary>
    public static bool IsOld(ReadOnlySpan<byte> bytes) => bytes.StartsWith((ReadOnlySpan<byte>)[0xD0, 0xCF, 0x11, 0xE0]);

    /// <summary>Hands the rows of the sheet to <paramref name="take"/> until that says no; false and a problem noted where the file cannot be read whole.</summary>
    /// <param name="file">The file's name in messages.</param>
    /// <param name="bytes">The file.</param>
    /// <param name="problems">Gets what is wrong.</param>
    /// <param name="take">Takes the number of a row, as the spreadsheet shows it, and its cells; says whether to go on.</param>
    public static bool Read(string file, ReadOnlyMemory<byte> bytes, ProblemList problems, Func<int, string[], bool> take)
    {
        if (bytes.Length > FileText.MostBytes)
        {
            problems.Add(file, 1, FileText.TooLarge);
            return false;
        }

        if (Unpacking.Read(file, bytes, _ => false, problems) is null)
        {
            return false;
        }

        try
        {
            using MemoryStream stream = new(bytes.ToArray(), writable: false);
            using SpreadsheetDocument document = SpreadsheetDocument.Open(stream, isEditable: false, new OpenSettings { AutoSave = false, MaxCharactersInPart = Unpacking.MostBytes });
            if (document.WorkbookPart is not { } part)
            {
                problems.Add(file, 1, NoSpreadsheet);
                return false;
            }

            Workbook workbook = new(file, problems, part);
            return workbook.Read(take);
        }
        catch (Exception e) when (e is OpenXmlPackageException or FileFormatException or InvalidDataException or IOException or NotSupportedException)
        {
            problems.Add(file, 1, NoSpreadsheet);
        }
        catch (Exception e) when (e is XmlException or FormatException or ArgumentException or InvalidOperationException or KeyNotFoundException or OverflowException)
        {
            problems.Add(file, 1, "The spreadsheet is damaged; open it in a spreadsheet program, save it again as .xlsx or as CSV, and give that file.");
        }

        return false;
    }

    private static string NoSpreadsheet => "This is an archive or a document of another kind, not an .xlsx spreadsheet; save the sheet as .xlsx or CSV, or unpack the archive, and give that file.";

    private bool Read(Func<int, string[], bool> take)
    {
        ReadStyles();
        ReadStrings();
        List<(string Name, WorksheetPart Sheet)> sheets = Sheets();
        if (sheets.Count == 0)
        {
            problems.Add(file, 1, "The spreadsheet has no visible sheet with cells.");
            return false;
        }

        if (IsFilled(sheets[0].Sheet))
        {
            return ReadSheet(sheets[0].Sheet, take);
        }

        List<(string Name, WorksheetPart Sheet)> filled = [.. sheets.Skip(1).Where(s => IsFilled(s.Sheet))];
        if (filled.Count > 1)
        {
            problems.Add(file, 1, $"The first sheet is empty and {filled.Count} others are not ({string.Join(", ", filled.Take(5).Select(s => $"'{Cell.Show(s.Name)}'"))}); put the rows on the first sheet.");
            return false;
        }

        // An empty first sheet is read all the same, so that the message is that of an empty file.
        return ReadSheet(filled.Count == 1 ? filled[0].Sheet : sheets[0].Sheet, take);
    }

    // In the order of the tabs. Hidden sheets hold lists and workings that the person does not see.
    private List<(string Name, WorksheetPart Sheet)> Sheets()
    {
        List<(string, WorksheetPart)> sheets = [];
        using OpenXmlReader reader = OpenXmlReader.Create(part);
        while (reader.Read())
        {
            if (!reader.IsStartElement)
            {
                continue;
            }

            if (reader.ElementType == typeof(WorkbookProperties))
            {
                from1904 = Attribute(reader, "date1904") is "1" or "true";
            }
            else if (reader.ElementType == typeof(Sheet) && Attribute(reader, "state") is null or "visible" && Attribute(reader, "id") is { } id
                && part.TryGetPartById(id, out OpenXmlPart? sheet) && sheet is WorksheetPart worksheet)
            {
                sheets.Add((Attribute(reader, "name") ?? "", worksheet));
            }
        }

        return sheets;
    }

    private void ReadStyles()
    {
        if (part.WorkbookStylesPart is not { } styles)
        {
            return;
        }

        Dictionary<uint, string> own = [];
        bool inCells = false;
        using OpenXmlReader reader = OpenXmlReader.Create(styles);
        while (reader.Read())
        {
            if (reader.ElementType == typeof(CellFormats))
            {
                inCells = reader.IsStartElement;
            }
            else if (reader.IsStartElement && reader.ElementType == typeof(NumberingFormat) && Number(reader, "numFmtId") is { } format)
            {
                own[format] = Attribute(reader, "formatCode") ?? "";
            }
            else if (reader.IsStartElement && inCells && reader.ElementType == typeof(CellFormat))
            {
                looks.Add(NumberLook.Of(Number(reader, "numFmtId") ?? 0, own));
            }
        }
    }

    private void ReadStrings()
    {
        if (part.SharedStringTablePart is not { } table)
        {
            return;
        }

        StringBuilder text = new();
        bool isSpelling = false;
        using OpenXmlReader reader = OpenXmlReader.Create(table);
        while (reader.Read())
        {
            if (reader.ElementType == typeof(PhoneticRun))
            {
                // How a Japanese word is said; it is not part of the text.
                isSpelling = reader.IsStartElement && !reader.IsEndElement;
            }
            else if (reader.ElementType == typeof(Text) && reader.IsStartElement && !isSpelling)
            {
                text.Append(reader.GetText());
            }
            else if (reader.ElementType == typeof(SharedStringItem) && reader.IsEndElement)
            {
                strings.Add(text.ToString().Normalize(NormalizationForm.FormC));
                text.Clear();
            }
        }
    }

    private static bool IsFilled(WorksheetPart sheet)
    {
        using OpenXmlReader reader = OpenXmlReader.Create(sheet);
        while (reader.Read())
        {
            if (reader.IsStartElement
                && (reader.ElementType == typeof(CellFormula) || ((reader.ElementType == typeof(CellValue) || reader.ElementType == typeof(Text)) && reader.GetText().Length > 0)))
            {
                return true;
            }
        }

        return false;
    }

    private bool ReadSheet(WorksheetPart sheet, Func<int, string[], bool> take)
    {
        List<string> fields = [];
        int row = 0;
        using OpenXmlReader reader = OpenXmlReader.Create(sheet);
        while (reader.Read())
        {
            if (reader.ElementType == typeof(Row) && reader.IsStartElement)
            {
                row = Number(reader, "r") is { } r and <= CellAddress.MostRows ? (int)r : row + 1;
                fields.Clear();
            }
            else if (reader.ElementType == typeof(DocumentFormat.OpenXml.Spreadsheet.Cell) && reader.IsStartElement)
            {
                if (!ReadCell(reader, row, fields))
                {
                    return false;
                }
            }

            if (reader.ElementType == typeof(Row) && reader.IsEndElement && fields.Count > 0)
            {
                handedOut += fields.Count;
                if (handedOut > FileText.MostBytes)
                {
                    problems.Add(file, row, FileText.TooLarge);
                    return false;
                }

                if (!take(row, [.. fields]))
                {
                    return true;
                }
            }
        }

        return true;
    }

    // Reads up to the end of the cell, since a cell may hold a formula, a value and rich text in turn.
    private bool ReadCell(OpenXmlReader reader, int row, List<string> fields)
    {
        string type = Attribute(reader, "t") ?? "n";
        uint style = Number(reader, "s") ?? 0;
        CellAddress at = Attribute(reader, "r") is { } reference && CellAddress.TryParse(reference, out CellAddress address) ? address : new(Math.Min(fields.Count, CellAddress.MostColumns - 1), row);
        bool hasFormula = false;
        StringBuilder text = new();
        bool isSpelling = false;
        while (!(reader.ElementType == typeof(DocumentFormat.OpenXml.Spreadsheet.Cell) && reader.IsEndElement))
        {
            if (!reader.Read())
            {
                break;
            }

            if (reader.ElementType == typeof(CellFormula))
            {
                hasFormula = true;
            }
            else if (reader.ElementType == typeof(PhoneticRun))
            {
                isSpelling = reader.IsStartElement && !reader.IsEndElement;
            }
            else if (reader.IsStartElement && !isSpelling && (reader.ElementType == typeof(CellValue) || reader.ElementType == typeof(Text)))
            {
                text.Append(reader.GetText());
            }
        }

        string shown = Shown(type, style, text.ToString(), hasFormula, at) ?? "";
        handedOut += shown.Length;
        if (handedOut > FileText.MostBytes)
        {
            problems.Add(file, row, FileText.TooLarge);
            return false;
        }

        if (shown.Length == 0)
        {
            return true;
        }

        while (fields.Count <= at.Column)
        {
            fields.Add("");
        }

        fields[at.Column] = shown;
        return true;
    }

    // The text of a cell; null and a problem noted where it has none that could be meant.
    private string? Shown(string type, uint style, string stored, bool hasFormula, CellAddress at)
    {
        string? Refuse(string message)
        {
            problems.Add(file, at.Row, $"cell {at}: {message}");
            return null;
        }

        switch (type)
        {
            case "s":
                return int.TryParse(stored, NumberStyles.None, CultureInfo.InvariantCulture, out int index) && index < strings.Count
                    ? strings[index]
                    : Refuse("the text of this cell is missing from the file; type it again and save.");
            case "str" or "inlineStr" or "d":
                return stored.Normalize(NormalizationForm.FormC);
            case "b":
                return stored is "1" or "true" ? "true" : "false";
            case "e":
                return Refuse($"the spreadsheet shows the error {Cell.Show(stored)} here; mend the formula or write the value.");
            default:
                if (stored.Length == 0)
                {
                    return hasFormula ? Refuse("there is a formula without its result; open the file in a spreadsheet program, save it and give it again, or write the value.") : "";
                }

                if (!double.TryParse(stored, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) || !double.IsFinite(number))
                {
                    return Refuse($"'{Cell.Show(stored)}' is stored as a number and is none; type it again and save.");
                }

                NumberLook look = style < looks.Count ? looks[(int)style] : NumberLook.Plain;
                return look.Show(number, from1904) ?? Refuse($"{Cell.Show(stored)} is shown as a date or time and is none; write the date as 2026-11-22.");
        }
    }

    private static string? Attribute(OpenXmlReader reader, string name)
    {
        foreach (OpenXmlAttribute attribute in reader.Attributes)
        {
            if (attribute.LocalName == name)
            {
                return attribute.Value;
            }
        }

        return null;
    }

    private static uint? Number(OpenXmlReader reader, string name)
        => uint.TryParse(Attribute(reader, name), NumberStyles.None, CultureInfo.InvariantCulture, out uint number) ? number : null;
}
