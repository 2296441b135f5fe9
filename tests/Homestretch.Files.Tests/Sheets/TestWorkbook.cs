using System.IO.Compression;
using System.Security;
using System.Text;

namespace Homestretch.Files.Tests.Sheets;

/// <summary>Builds .xlsx files part by part (ECMA-376), sound ones and others that no spreadsheet would write.</summary>
public sealed class TestWorkbook
{
    private const string Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    private const string Relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

    private readonly List<(string Name, string State, string Xml)> _sheets = [];

    /// <summary>Number formats of the cell styles, from style 0 on.</summary>
    public string[] Formats { get; init; } = ["General"];

    public string WorkbookProperties { get; init; } = "";

    public string[] Strings { get; init; } = [];

    /// <summary>Parts added or replaced, by name.</summary>
    public Dictionary<string, byte[]> Parts { get; init; } = [];

    public CompressionLevel Compression { get; init; } = CompressionLevel.Fastest;

    /// <summary>A sheet with these rows of cells, each either XML of a cell's inside with its attributes or a text.</summary>
    public TestWorkbook Sheet(string rows, string name = "Sheet", string state = "visible")
    {
        _sheets.Add((name, state, $"""<worksheet xmlns="{Main}"><sheetData>{rows}</sheetData></worksheet>"""));
        return this;
    }

    /// <summary>A sheet of texts, rows parted by line ends and cells by |; an empty line is a row that is not there.</summary>
    public TestWorkbook Texts(string table, string name = "Sheet", string state = "visible") => Sheet(Rows(table), name, state);

    public static string Rows(string table)
    {
        StringBuilder rows = new();
        string[] lines = table.ReplaceLineEndings("\n").Split('\n');
        for (int i = 0; i < lines.Length; i++)
        {
            if (lines[i].Length > 0)
            {
                rows.Append(Row(i + 1, [.. lines[i].Split('|').Select(t => $"""t="inlineStr"><is><t>{SecurityElement.Escape(t)}</t></is>""")]));
            }
        }

        return rows.ToString();
    }

    /// <summary>A row whose cells are given from their attributes on: <c>t="b"&gt;&lt;v&gt;1&lt;/v&gt;</c>.</summary>
    public static string Row(int number, params string[] cells)
        => $"""<row r="{number}">{string.Concat(cells.Select((c, i) => $"""<c r="{(char)('A' + i)}{number}" {c}</c>"""))}</row>""";

    public byte[] Bytes()
    {
        Dictionary<string, byte[]> parts = new()
        {
            ["[Content_Types].xml"] = Utf8($"""
                <Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/styles.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"/><Override PartName="/xl/sharedStrings.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sharedStrings+xml"/>{string.Concat(_sheets.Select((_, i) => $"""<Override PartName="/xl/worksheets/sheet{i + 1}.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>"""))}</Types>
                """),
            ["_rels/.rels"] = Utf8($"""<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="{Relations}/officeDocument" Target="xl/workbook.xml"/></Relationships>"""),
            ["xl/workbook.xml"] = Utf8($"""
                <workbook xmlns="{Main}" xmlns:r="{Relations}">{WorkbookProperties}<sheets>{string.Concat(_sheets.Select((s, i) => $"""<sheet name="{s.Name}" sheetId="{i + 1}" state="{s.State}" r:id="sheet{i + 1}"/>"""))}</sheets></workbook>
                """),
            ["xl/_rels/workbook.xml.rels"] = Utf8($"""
                <Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="styles" Type="{Relations}/styles" Target="styles.xml"/><Relationship Id="strings" Type="{Relations}/sharedStrings" Target="sharedStrings.xml"/>{string.Concat(_sheets.Select((_, i) => $"""<Relationship Id="sheet{i + 1}" Type="{Relations}/worksheet" Target="worksheets/sheet{i + 1}.xml"/>"""))}</Relationships>
                """),
            ["xl/styles.xml"] = Utf8($"""
                <styleSheet xmlns="{Main}"><numFmts>{string.Concat(Formats.Select((f, i) => $"""<numFmt numFmtId="{200 + i}" formatCode="{SecurityElement.Escape(f)}"/>"""))}</numFmts><cellStyleXfs><xf numFmtId="14"/></cellStyleXfs><cellXfs>{string.Concat(Formats.Select((_, i) => $"""<xf numFmtId="{200 + i}"/>"""))}<xf numFmtId="14"/><xf numFmtId="9"/></cellXfs></styleSheet>
                """),
            ["xl/sharedStrings.xml"] = Utf8($"""<sst xmlns="{Main}">{string.Concat(Strings.Select(s => $"<si>{s}</si>"))}</sst>"""),
        };
        for (int i = 0; i < _sheets.Count; i++)
        {
            parts[$"xl/worksheets/sheet{i + 1}.xml"] = Utf8(_sheets[i].Xml);
        }

        foreach ((string name, byte[] content) in Parts)
        {
            parts[name] = content;
        }

        return Zip(parts, Compression);
    }

    public static byte[] Zip(IEnumerable<KeyValuePair<string, byte[]>> files, CompressionLevel compression = CompressionLevel.Fastest)
    {
        using MemoryStream packed = new();
        using (ZipArchive zip = new(packed, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach ((string name, byte[] content) in files)
            {
                using Stream entry = zip.CreateEntry(name, compression).Open();
                entry.Write(content);
            }
        }

        return packed.ToArray();
    }

    public static byte[] Utf8(string text) => Encoding.UTF8.GetBytes(text);
}
