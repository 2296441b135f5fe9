using System.Collections.Immutable;
using System.IO.Compression;
using System.Text;

using CsCheck;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Standing;
using Homestretch.Files.Evidences;
using Homestretch.Files.Exams;
using Homestretch.Files.ItemBanks;
using Homestretch.Files.Sheets;
using Homestretch.Files.StudyLogs;

namespace Homestretch.Files.Tests.Sheets;

/// <summary>Spreadsheets in place of CSV files.</summary>
public class WorkbookTests
{
    private const string Header = "candidate|note|date|topic|minutes|how|block";

    private const string Log = "candidate|date|topic|minutes|how\nAnn Ode|2026-11-22|Cataloguing|40|learn\n";

    [Fact]
    public void A_spreadsheet_says_what_the_same_rows_say_as_csv()
    {
        string csv = File.ReadAllText(TestFiles.Demo("mara-venn.csv"));
        Exam exam = Sound(ExamFile.Read(TestFiles.Demo("exam.yaml")));
        EvidenceSheet expected = Sound(EvidenceFile.Parse("e.csv", Encoding.UTF8.GetBytes(csv), exam));
        EvidenceSheet read = Sound(EvidenceFile.Parse("e.xlsx", new TestWorkbook().Texts(csv.Replace(',', '|')).Bytes(), exam));
        Assert.Equal(expected.Attempts.SelectMany(a => a.Observations), read.Attempts.SelectMany(a => a.Observations));
        Assert.Equal(expected.Attempts.Select(a => (a.Candidate, a.Name, a.Kind, a.Date)), read.Attempts.Select(a => (a.Candidate, a.Name, a.Kind, a.Date)));
    }

    [Fact]
    public void An_item_bank_may_be_a_spreadsheet()
    {
        TestWorkbook workbook = new() { Formats = ["General", "0.00"] };
        workbook.Sheet(TestWorkbook.Rows("topic|item|model|difficulty") + TestWorkbook.Row(2, Text("Cataloguing"), "><v>7</v>", Text("rasch"), "s=\"1\"><v>-0.31415926535897931</v>"));
        ItemBank bank = Sound(ItemBankFile.Parse("bank.xlsx", workbook.Bytes(), TestExams.Registrar));
        Assert.Equal(-0.314159265358979, bank.Find("Cataloguing", "7", null)!.Curve.Difficulty);
    }

    // Formats and serial numbers of ECMA-376 part 1, 18.8.30 and 18.17.4.1; days checked with the calendar (46348 is 22 November 2026, 44886 days later than 1904-01-01).
    [Theory]
    [InlineData("General", "12", "12")]
    [InlineData("General", "0.30000000000000004", "0.3")]
    [InlineData("General", "1E-3", "0.001")]
    [InlineData("General", "1234567", "1234567")]
    [InlineData("#,##0", "1234567", "1234567")]
    [InlineData("0", "12.5", "12.5")]
    [InlineData("000", "7", "007")]
    [InlineData("0%", "0.57142857142857140", "57%")]
    [InlineData("0.0%", "0.57142857142857140", "57.1%")]
    [InlineData("0\" % of all\"", "57", "57")]
    [InlineData("dd/mm/yyyy", "46348", "2026-11-22")]
    [InlineData("m/d/yy", "46348", "2026-11-22")]
    [InlineData("[$-407]d. mmmm yyyy;@", "46348", "2026-11-22")]
    [InlineData("dd/mm/yyyy hh:mm", "46348.5", "2026-11-22 12:00:00")]
    [InlineData("hh:mm", "0.75", "18:00:00")]
    [InlineData("[h]:mm", "1.25", "30:00:00")]
    public void Numbers_are_read_as_a_person_sees_them(string format, string stored, string expected)
    {
        TestWorkbook workbook = new() { Formats = ["General", format] };
        workbook.Sheet(TestWorkbook.Rows(Header) + TestWorkbook.Row(2, Text("Ann"), $"s=\"1\"><v>{stored}</v>"));
        Assert.Equal(expected, Cells(workbook)[0][Column("note")]);
    }

    [Fact]
    public void Dates_may_be_counted_from_1904_and_styled_by_number()
    {
        TestWorkbook workbook = new() { WorkbookProperties = "<workbookPr date1904=\"1\"/>" };
        workbook.Sheet(TestWorkbook.Rows(Header) + TestWorkbook.Row(2, Text("Ann"), "s=\"2\"><v>0.4</v>", "s=\"1\"><v>44886</v>"));
        Assert.Equal("2026-11-22", Cells(workbook)[0][Column("date")]);
        Assert.Equal("40%", Cells(workbook)[0][Column("note")]);
    }

    [Fact]
    public void Every_kind_of_cell_is_read()
    {
        TestWorkbook workbook = new() { Strings = ["<t>Ann</t>", "<r><t>in </t></r><r><rPr><b/></rPr><t>two</t></r><rPh sb=\"0\" eb=\"1\"><t>say so</t></rPh>"] };
        workbook.Sheet(TestWorkbook.Rows(Header)
            + TestWorkbook.Row(2, "t=\"s\"><v>0</v>", "t=\"s\"><v>1</v>", "t=\"d\"><v>2026-11-22</v>", "t=\"str\"><f>A1</f><v>Loans</v>", "><f>20*2</f><v>40</v>", "t=\"str\"><f>\"\"</f><v></v>", "t=\"b\"><v>1</v>"));
        string[] row = Cells(workbook)[0];
        Assert.Equal(["Ann", "in two", "2026-11-22", "Loans", "40", "", "true"], Header.Split('|').Select(c => row[Column(c)]));
    }

    [Theory]
    [InlineData("><f>SUM(A1:A9)</f>", "cell B3: there is a formula without its result")]
    [InlineData("><f>SUM(A1:A9)</f><v></v>", "cell B3: there is a formula without its result")]
    [InlineData("t=\"e\"><f>1/0</f><v>#DIV/0!</v>", "cell B3: the spreadsheet shows the error #DIV/0! here")]
    [InlineData("t=\"s\"><v>99</v>", "cell B3: the text of this cell is missing")]
    [InlineData("><v>many</v>", "cell B3: 'many' is stored as a number and is none")]
    [InlineData("s=\"1\"><v>-4</v>", "cell B3: -4 is shown as a date or time and is none")]
    public void A_cell_without_a_value_is_named(string cell, string message)
    {
        TestWorkbook workbook = new TestWorkbook { Formats = ["General", "dd/mm/yyyy"] }.Sheet(TestWorkbook.Rows(Header) + TestWorkbook.Row(3, Text("Ann"), cell));
        FileProblem problem = Assert.Single(StudyLogFile.Cells.Split("log.xlsx", workbook.Bytes()).Problems);
        Assert.Equal(3, problem.Line);
        Assert.StartsWith(message, problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Problems_name_the_row_of_the_sheet()
    {
        byte[] bytes = new TestWorkbook().Texts(Log + "\n\nAnn Ode|2026-11-23|Cataloguing|forty|learn").Bytes();
        FileProblem problem = Assert.Single(StudyLogFile.ParseAll([("log.xlsx", bytes)], TestExams.Registrar).Problems);
        Assert.Equal(5, problem.Line);
        Assert.Contains("'forty'", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_first_visible_sheet_counts_or_the_only_filled_one()
    {
        Assert.Single(Sessions(new TestWorkbook().Texts("not|read", "Lists", "hidden").Texts(Log).Texts("more|notes", "Notes")));
        Assert.Single(Sessions(new TestWorkbook().Sheet("", "Empty").Texts(Log).Sheet("<row r=\"1\"><c r=\"A1\" s=\"1\"/></row>", "Styled")));
        Assert.Contains("'One', 'Two'", Problem(new TestWorkbook().Sheet("").Texts(Log, "One").Texts(Log, "Two").Bytes()), StringComparison.Ordinal);
        Assert.Contains("The file is empty", Problem(new TestWorkbook().Sheet("").Bytes()), StringComparison.Ordinal);
        Assert.Contains("no visible sheet", Problem(new TestWorkbook().Texts(Log, "Lists", "veryHidden").Bytes()), StringComparison.Ordinal);
    }

    [Fact]
    public void Links_to_other_files_are_not_followed()
    {
        TestWorkbook workbook = new()
        {
            Parts =
            {
                ["xl/worksheets/_rels/sheet1.xml.rels"] = TestWorkbook.Utf8("""
                    <Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/hyperlink" Target="file:///etc/passwd" TargetMode="External"/><Relationship Id="r2" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/externalLink" Target="http://127.0.0.1:9/never" TargetMode="External"/></Relationships>
                    """),
            },
        };
        Assert.Single(Sessions(workbook.Texts(Log)));
    }

    [Fact]
    public void Entities_are_never_opened_out()
    {
        const string Xml = """
            <?xml version="1.0"?><!DOCTYPE worksheet [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;"><!ENTITY secret SYSTEM "file:///etc/passwd">]>
            <worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>&b;&secret;</t></is></c></row></sheetData></worksheet>
            """;
        foreach (string part in new[] { "xl/worksheets/sheet1.xml", "xl/workbook.xml", "xl/styles.xml", "xl/sharedStrings.xml", "[Content_Types].xml", "_rels/.rels", "xl/_rels/workbook.xml.rels" })
        {
            string problem = Problem(new TestWorkbook { Parts = { [part] = TestWorkbook.Utf8(Xml) } }.Texts(Log).Bytes());
            Assert.DoesNotContain("aaaa", problem, StringComparison.Ordinal);
            Assert.DoesNotContain("root", problem, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void What_would_fill_the_machine_is_refused()
    {
        byte[] zeros = new byte[40 * 1024 * 1024];
        Assert.Contains("unpacks to far more than its size", Problem(new TestWorkbook { Parts = { ["xl/media/image1.png"] = zeros } }.Texts(Log).Bytes()), StringComparison.Ordinal);

        // The same zip, saying of itself that the file holds one byte.
        byte[] liar = new TestWorkbook { Parts = { ["xl/media/image1.png"] = zeros } }.Texts(Log).Bytes();
        Span<byte> size = BitConverter.GetBytes(zeros.Length);
        for (int at; (at = liar.AsSpan().IndexOf(size)) >= 0;)
        {
            BitConverter.GetBytes(1).CopyTo(liar, at);
        }

        ReadResult<StudyLog> read = StudyLogFile.ParseAll([("liar.xlsx", liar)], TestExams.Registrar);
        Assert.True(read.IsOk, "No more is unpacked than the one byte that the zip states.");

        byte[] noise = new byte[1024 * 1024];
        new Random(1).NextBytes(noise);
        byte[] half = [.. noise[..(noise.Length / 8)], .. new byte[noise.Length * 7 / 8]];
        Assert.Contains("unpacks to far more", Problem(new TestWorkbook { Parts = Enumerable.Range(0, 140).ToDictionary(i => $"xl/media/{i}.png", _ => half) }.Texts(Log).Bytes()), StringComparison.Ordinal);
        Assert.Contains("10001 files", Problem(TestWorkbook.Zip(Enumerable.Range(0, 10_001).Select(i => KeyValuePair.Create($"f{i}", Array.Empty<byte>())))), StringComparison.Ordinal);
        Assert.Contains("larger than 20 MB", Problem(new TestWorkbook { Compression = CompressionLevel.NoCompression, Parts = { ["xl/media/image1.png"] = new byte[50 * 1024 * 1024] } }.Texts(Log).Bytes()), StringComparison.Ordinal);
    }

    [Fact]
    public void One_long_text_in_many_cells_is_counted_cell_by_cell()
    {
        TestWorkbook workbook = new() { Strings = [$"<t>{new string('x', 30_000)}</t>"] };
        string rows = string.Concat(Enumerable.Range(2, 1000).Select(r => $"<row r=\"{r}\"><c r=\"A{r}\" t=\"s\"><v>0</v></c></row>"));
        ReadResult<SheetRows> read = StudyLogFile.Cells.Split("log.xlsx", workbook.Sheet(TestWorkbook.Rows(Header) + rows).Bytes());
        Assert.Contains("larger than 20 MB", Assert.Single(read.Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Other_files_are_named_for_what_they_are()
    {
        Assert.Contains("old .xls spreadsheet", Problem([0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1, .. new byte[600]]), StringComparison.Ordinal);
        Assert.Contains("not an .xlsx spreadsheet", Problem(TestWorkbook.Zip([KeyValuePair.Create("mimetype", TestWorkbook.Utf8("application/vnd.oasis.opendocument.spreadsheet"))])), StringComparison.Ordinal);
        byte[] whole = new TestWorkbook().Texts(Log).Bytes();
        Assert.Contains("damaged", Problem(whole[..(whole.Length / 2)]), StringComparison.Ordinal);
    }

    [Fact]
    public void Whatever_a_spreadsheet_holds_reading_it_gives_a_value_or_problems()
    {
        byte[] whole = new TestWorkbook { Compression = CompressionLevel.NoCompression, Formats = ["General", "0%", "dd/mm/yyyy"], Strings = ["<t>Ann Ode</t>"] }
            .Sheet(TestWorkbook.Rows(Log) + TestWorkbook.Row(3, "t=\"s\"><v>0</v>", "s=\"2\"><v>46348</v>", Text("Cataloguing"), "><f>1+2</f><v>40</v>", Text("learn"))).Bytes();
        Assert.True(StudyLogFile.ParseAll([("log.xlsx", whole)], TestExams.Registrar).IsOk);
        Gen.Select(Gen.Int[0, whole.Length - 1], Gen.Byte, Gen.Int[0, 3]).Array[1, 4].Sample(
            changes =>
            {
                byte[] changed = [.. whole];
                foreach ((int at, byte value, int length) in changes)
                {
                    changed.AsSpan(at, Math.Min(length + 1, changed.Length - at)).Fill(value);
                }

                ReadResult<StudyLog> read = StudyLogFile.ParseAll([("log.xlsx", changed)], TestExams.Registrar);
                Assert.All(read.Problems, p => Assert.DoesNotMatch(ProblemChecks.TypeName(), p.Message));
            },
            iter: 1500);
    }

    [Theory]
    [InlineData("=1+1", "'=1+1")]
    [InlineData("@now", "'@now")]
    [InlineData("+44 20", "'+44 20")]
    [InlineData("-x", "'-x")]
    [InlineData("-0.5", "-0.5")]
    [InlineData("+3,5 %", "\"+3,5 %\"")]
    [InlineData("'=1", "''=1")]
    [InlineData("'tis", "'tis")]
    [InlineData("=a,b", "\"'=a,b\"")]
    public void What_a_spreadsheet_would_calculate_is_marked_as_text(string value, string written)
    {
        Assert.Equal(written, CsvText.Quote(value));
        Assert.Equal(value, CsvText.Unmark(written.Trim('"')));
    }

    [Fact]
    public void Cells_come_back_as_they_were_written()
    {
        Gen<string> text = Gen.Char["=+-@'\",;1a \t＝%"].Array[0, 8].Select(c => Cell.Tidy(new string(c)));
        text.Array[StudyLogFile.Cells.Columns.Length].Array[1, 5].Where(rows => rows.All(r => r.Any(c => c.Length > 0))).Sample(rows =>
        {
            SheetRows read = Sound(StudyLogFile.Cells.Split("log.csv", Encoding.UTF8.GetBytes(StudyLogFile.Cells.Write(rows))));
            Assert.Equal(rows, read.Lines.Select(l => l.Cells.ToArray()));
        });
    }

    private static string Text(string text) => $"t=\"inlineStr\"><is><t>{text}</t></is>";

    private static int Column(string name) => StudyLogFile.Cells.Columns.IndexOf(name);

    private static List<string[]> Cells(TestWorkbook workbook)
        => [.. Sound(StudyLogFile.Cells.Split("log.xlsx", workbook.Bytes())).Lines.Select(l => l.Cells.ToArray())];

    private static ImmutableArray<LoggedSession> Sessions(TestWorkbook workbook) => Sound(StudyLogFile.ParseAll([("log.xlsx", workbook.Bytes())], TestExams.Registrar)).SessionsOf("Ann Ode");

    private static string Problem(byte[] bytes) => Assert.Single(StudyLogFile.ParseAll([("log.xlsx", bytes)], TestExams.Registrar).Problems).Message;

    private static T Sound<T>(ReadResult<T> read)
        where T : class
    {
        Assert.True(read.IsOk, string.Join('\n', read.Problems));
        return read.Value;
    }
}
