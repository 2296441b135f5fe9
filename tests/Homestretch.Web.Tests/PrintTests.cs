using System.Net;
using System.Text.RegularExpressions;

using UglyToad.PdfPig;

namespace Homestretch.Web.Tests;

/// <summary>Handouts as PDFs, over HTTP, printed by the real Chromium.</summary>
public sealed class PrintTests(SharedServer server)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_pdf_of_a_case_follows_the_assumptions_of_its_page()
    {
        using HttpClient client = server.Client();
        using HttpResponseMessage answer = await client.GetAsync(new Uri("/case/mara-venn/handout.pdf?day=2026-12-20&paper=letter", UriKind.Relative), Cancellation);

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("application/pdf", answer.Content.Headers.ContentType?.MediaType);
        Assert.Equal("mara-venn.pdf", answer.Content.Headers.ContentDisposition?.FileName);
        using PdfDocument document = PdfDocument.Open(await answer.Content.ReadAsByteArrayAsync(Cancellation));
        Assert.Equal(612, document.GetPage(1).Width, 1);
        Assert.Contains("Sunday20December2026", string.Concat(document.GetPage(1).Text.Where(c => !char.IsWhiteSpace(c))), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Many_people_are_one_pdf_in_the_order_chosen()
    {
        using HttpClient client = server.Client();
        byte[] pdf = await client.GetByteArrayAsync(new Uri("/handouts.pdf?case=ines-harrow&case=mara-venn&case=ines-harrow", UriKind.Relative), Cancellation);

        using PdfDocument document = PdfDocument.Open(pdf);
        string[] pages = [.. document.GetPages().Select(p => string.Concat(p.Text.Where(c => !char.IsWhiteSpace(c))))];
        Assert.StartsWith("InesHarrow", pages[0], StringComparison.Ordinal);
        int second = Assert.Single(Enumerable.Range(1, pages.Length - 1), i => pages[i].StartsWith("MaraVenn", StringComparison.Ordinal));
        Assert.Equal(0, second % 2);
        Assert.Equal(595, document.GetPage(1).Width, 1);
    }

    [Theory]
    [InlineData("/case/nobody/handout.pdf", HttpStatusCode.NotFound, "There is no such page")]
    [InlineData("/case/mara-venn/handout.pdf?paper=a5", HttpStatusCode.BadRequest, "a4 or letter")]
    [InlineData("/handouts.pdf?case=mara-venn&paper=a5", HttpStatusCode.BadRequest, "a4 or letter")]
    [InlineData("/handouts.pdf?case=nobody", HttpStatusCode.NotFound, "There is no case 'nobody'")]
    public async Task What_cannot_be_printed_is_said(string path, HttpStatusCode status, string words)
    {
        using HttpClient client = server.Client();
        using HttpResponseMessage answer = await client.GetAsync(new Uri(path, UriKind.Relative), Cancellation);

        Assert.Equal(status, answer.StatusCode);
        Assert.Contains(words, WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Cancellation)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Nobody_and_too_many_are_ordinary_mistakes()
    {
        using HttpClient client = server.Client();
        using HttpResponseMessage nobody = await client.GetAsync(new Uri("/handouts.pdf?paper=a4", UriKind.Relative), Cancellation);
        Assert.Equal(HttpStatusCode.SeeOther, nobody.StatusCode);
        Assert.Contains("Tick at least one person", await client.GetStringAsync(nobody.Headers.Location, Cancellation), StringComparison.Ordinal);

        using HttpResponseMessage many = await client.GetAsync(new Uri("/handouts.pdf?" + string.Join('&', Enumerable.Range(0, 61).Select(i => $"case=c{i}")), UriKind.Relative), Cancellation);
        Assert.Equal(HttpStatusCode.BadRequest, many.StatusCode);
        Assert.Contains("at most 60 people; 61 were chosen", await many.Content.ReadAsStringAsync(Cancellation), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", 0)]
    [InlineData("?exam=&days=", 3)]
    [InlineData("?exam=&days=2", 1)]
    [InlineData("?exam=&days=17", 2)]
    [InlineData("?exam=another&days=17", 0)]
    [InlineData("?exam=&days=soon", 0)]
    public async Task People_are_ticked_by_exam_and_by_days_left(string query, int demoPeople)
    {
        using HttpClient client = server.Client();
        string html = await client.GetStringAsync(new Uri("/handouts" + query, UriKind.Relative), Cancellation);

        Assert.Equal(demoPeople, Regex.Matches(html, "<input[^>]*value=\"(mara-venn|tobias-okell|ines-harrow)\"[^>]*>").Count(m => m.Value.Contains(" checked", StringComparison.Ordinal)));
        Assert.Equal(query.Contains("soon", StringComparison.Ordinal), html.Contains("whole number from 0 to", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Without_chromium_the_page_says_what_to_install()
    {
        string data = Path.Combine(Path.GetTempPath(), "homestretch-web-" + Guid.NewGuid().ToString("N"));
        try
        {
            await using ServerProcess without = await ServerProcess.StartAsync(data, new Dictionary<string, string> { ["HOMESTRETCH_CHROMIUM"] = "", ["PATH"] = Path.GetDirectoryName(Environment.ProcessPath)!, ["DOTNET_ROOT"] = Environment.GetEnvironmentVariable("DOTNET_ROOT") ?? "" });
            using HttpClient client = new() { BaseAddress = without.Address };
            using HttpResponseMessage answer = await client.GetAsync(new Uri("/case/ines-harrow/handout.pdf", UriKind.Relative), Cancellation);
            string html = await answer.Content.ReadAsStringAsync(Cancellation);

            Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
            Assert.Contains("No PDF could be made", html, StringComparison.Ordinal);
            Assert.Contains("apt install chromium", html, StringComparison.Ordinal);
            Assert.Contains("apt install chromium", await client.GetStringAsync(new Uri("/handouts", UriKind.Relative), Cancellation), StringComparison.Ordinal);
        }
        finally
        {
            Directory.Delete(data, recursive: true);
        }
    }
}
