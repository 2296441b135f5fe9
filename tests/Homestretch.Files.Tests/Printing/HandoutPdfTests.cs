using System.Collections.Immutable;

using Homestretch.Files.Handouts;
using Homestretch.Files.Printing;

using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Tokens;

namespace Homestretch.Files.Tests.Printing;

/// <summary>Handouts printed by the real Chromium, and the PDFs read again.</summary>
public sealed class HandoutPdfTests
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(PaperSize.A4, 595, 842)]
    [InlineData(PaperSize.Letter, 612, 792)]
    public async Task One_handout_is_a_tagged_pdf_on_the_paper_asked_for(PaperSize paper, int width, int height)
    {
        using PdfPrinter printer = Patient();
        byte[] pdf = await HandoutPdf.PrintAsync(printer, [SampleReports.ThreeWeeks], paper, Cancellation);

        using PdfDocument document = PdfDocument.Open(pdf);
        Assert.InRange(document.NumberOfPages, 1, 4);
        Assert.All(document.GetPages(), page => Assert.Equal((width, height), ((int)Math.Round(page.Width), (int)Math.Round(page.Height))));
        Assert.Equal($"{SampleReports.ThreeWeeks.Candidate}: {SampleReports.ThreeWeeks.Standing.Exam.Name}", document.Information.Title);
        string text = string.Concat(document.GetPages().Select(Text));
        Assert.Contains(Packed(SampleReports.ThreeWeeks.Candidate), text, StringComparison.Ordinal);
        Assert.Contains(Packed("A forecast is not a promise."), text, StringComparison.Ordinal);
        Assert.All(SampleReports.ThreeWeeks.Plan!.Blocks.Select(b => b.Topic.Name).Distinct(), topic => Assert.Contains(Packed(topic), text, StringComparison.Ordinal));

        // Tags for screen readers, a language, and our own type: a subset carries a mark of six letters before its name.
        DictionaryToken catalogue = document.Structure.Catalog.CatalogDictionary;
        Assert.True(catalogue.ContainsKey(NameToken.Create("StructTreeRoot")));
        Assert.True(catalogue.ContainsKey(NameToken.Create("MarkInfo")));
        Assert.All(document.GetPages().SelectMany(p => p.Letters).Select(l => l.FontName).Distinct(), name => Assert.Matches("^[A-Z]{6}\\+AtkinsonHyperlegibleNext", name));
    }

    [Fact]
    public async Task Everybody_begins_on_a_sheet_of_their_own()
    {
        ImmutableArray<CandidateReport> reports = [SampleReports.ThreeWeeks, SampleReports.NothingKnown, SampleReports.ThreeTopics];
        using PdfPrinter printer = Patient();
        byte[] pdf = await HandoutPdf.PrintAsync(printer, reports, PaperSize.A4, Cancellation);

        using PdfDocument document = PdfDocument.Open(pdf);
        int[] starts = [.. document.GetPages().Where(p => reports.Any(r => Text(p).StartsWith(Packed(r.Candidate) + Packed(r.Standing.Exam.Name), StringComparison.Ordinal))).Select(p => p.Number)];
        Assert.Equal(reports.Length, starts.Length);
        Assert.All(starts, start => Assert.Equal(1, start % 2));

        // At most one empty page before the next person, and none at the end.
        for (int i = 0; i + 1 < starts.Length; i++)
        {
            Assert.InRange(Enumerable.Range(starts[i], starts[i + 1] - starts[i]).Count(n => Text(document.GetPage(n)).Length == 0), 0, 1);
        }

        Assert.NotEqual("", Text(document.GetPage(document.NumberOfPages)));
    }

    [Fact]
    public void Ids_stay_unique_with_several_people()
    {
        string html = Handout.Html([SampleReports.ThreeWeeks, SampleReports.TwelveTopics, SampleReports.NothingKnown], PaperSize.Letter, new HashSet<int> { 0 });

        string[] ids = [.. System.Text.RegularExpressions.Regex.Matches(html, " id=\"([^\"]+)\"").Select(m => m.Groups[1].Value)];
        Assert.NotEmpty(ids);
        Assert.Equal(ids.Length, ids.Distinct().Count());
        Assert.Contains("size: Letter", html, StringComparison.Ordinal);
        Assert.Single(System.Text.RegularExpressions.Regex.Matches(html, "class=\"back\""));
    }

    // Two builds at once on a small machine starve a browser for a while.
    private static PdfPrinter Patient() => new(() => Chromium.Find(), TimeSpan.FromMinutes(2));

    private static string Text(Page page) => Packed(page.Text);

    // What lies between words in a PDF is a matter of positions.
    private static string Packed(string text) => string.Concat(text.Where(c => !char.IsWhiteSpace(c) && c != '\u00AD'));
}
