using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;

namespace Homestretch.Web.Tests;

/// <summary>Addresses, headers, limits and downloads, over HTTP.</summary>
public sealed class RouteTests(SharedServer server)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("/")]
    [InlineData("/new")]
    [InlineData("/case/mara-venn")]
    [InlineData("/case/nobody")]
    [InlineData("/no/such/page")]
    [InlineData("/look.css")]
    [InlineData("/case/mara-venn/plan.ics")]
    public async Task Every_answer_is_locked_down(string path)
    {
        using HttpClient client = server.Client();
        using HttpResponseMessage answer = await client.GetAsync(new Uri(path, UriKind.Relative), Cancellation);

        Assert.Equal(
            "default-src 'self'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; object-src 'none'; base-uri 'self'; frame-ancestors 'none'; form-action 'self'",
            Header(answer, "Content-Security-Policy"));
        Assert.Equal("nosniff", Header(answer, "X-Content-Type-Options"));
        Assert.Equal("same-origin", Header(answer, "Referrer-Policy"));
        Assert.False(answer.Headers.Contains("Server"));
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/case/mara-venn")]
    [InlineData("/new")]
    [InlineData("/specimens")]
    public async Task No_page_has_an_inline_script_style_or_handler(string path)
    {
        using HttpClient client = server.Client();
        string html = await client.GetStringAsync(new Uri(path, UriKind.Relative), Cancellation);

        Assert.DoesNotMatch("<script(?![^>]*\\bsrc=)", html);
        Assert.DoesNotMatch("<style", html);
        Assert.DoesNotMatch("<[^>]+\\sstyle=", html);
        Assert.DoesNotMatch("<[^>]+\\son[a-z]+=", html);
    }

    [Theory]
    [InlineData("/case/nobody", "There is no such page")]
    [InlineData("/case/nobody/handout", "There is no such page")]
    [InlineData("/case/nobody/plan.ics", "There is no such page")]
    [InlineData("/blueprint/nobody", "There is no such page")]
    [InlineData("/examples/..%2Fappsettings.json", "There is no such page")]
    [InlineData("/case/%3Cscript%3Ealert(1)%3C%2Fscript%3E", "There is no such page")]
    public async Task A_missing_page_says_what_to_do(string path, string title)
    {
        using HttpClient client = server.Client();
        using HttpResponseMessage answer = await client.GetAsync(new Uri(path, UriKind.Relative), Cancellation);
        string html = await answer.Content.ReadAsStringAsync(Cancellation);

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Contains(title, html, StringComparison.Ordinal);
        Assert.Contains("href=\"/\"", html, StringComparison.Ordinal);
        Assert.DoesNotContain("<script>alert", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Bad_assumptions_are_all_named_and_shown_as_typed()
    {
        using HttpClient client = server.Client();
        string html = WebUtility.HtmlDecode(await client.GetStringAsync(
            new Uri("/case/mara-venn?hours=-1&day=2026-02-30&cut-1=1e9&cut-2=%22%3E%3Cscript%3Ealert(1)%3C/script%3E&policy=best", UriKind.Relative), Cancellation));

        Assert.Contains("Hours a week must be a number from 0 to", html, StringComparison.Ordinal);
        Assert.Contains("'2026-02-30' is not", html, StringComparison.Ordinal);
        Assert.Contains("The cut score of Care of collections must be a number from 1 to 100 (% of items); '1e9' is not.", html, StringComparison.Ordinal);
        Assert.Contains("The cut score of Documents and law must be", html, StringComparison.Ordinal);
        Assert.Contains("must be optimised or practice-order; 'best' is neither", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_long_query_is_an_ordinary_mistake()
    {
        using HttpClient client = server.Client();
        using HttpResponseMessage answer = await client.GetAsync(new Uri("/case/mara-venn?hours=" + new string('9', 4000), UriKind.Relative), Cancellation);
        string html = await answer.Content.ReadAsStringAsync(Cancellation);

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains("Hours a week must be a number", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_handout_may_use_its_own_styles_and_nothing_else()
    {
        using HttpClient client = server.Client();
        using HttpResponseMessage answer = await client.GetAsync(new Uri("/case/mara-venn/handout?hours=5", UriKind.Relative), Cancellation);
        string html = await answer.Content.ReadAsStringAsync(Cancellation);

        Assert.Equal("text/html", answer.Content.Headers.ContentType?.MediaType);
        Assert.Contains("Mara Venn", html, StringComparison.Ordinal);
        Assert.StartsWith("default-src 'none'; style-src 'sha256-", Header(answer, "Content-Security-Policy"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_calendar_holds_the_blocks_of_the_plan_shown()
    {
        using HttpClient client = server.Client();
        string few = await client.GetStringAsync(new Uri("/case/mara-venn/plan.ics?hours=3", UriKind.Relative), Cancellation);
        string many = await client.GetStringAsync(new Uri("/case/mara-venn/plan.ics", UriKind.Relative), Cancellation);

        Assert.StartsWith("BEGIN:VCALENDAR", few, StringComparison.Ordinal);
        Assert.InRange(Count(few, "BEGIN:VEVENT"), 2, Count(many, "BEGIN:VEVENT") - 1);
    }

    [Fact]
    public async Task Every_document_is_json_and_follows_the_assumptions()
    {
        using HttpClient client = server.Client();
        Assert.Equal("Certificate for Registrars of Small Museums", (await JsonAsync(client, "exam.json")).GetProperty("exam").GetString());
        Assert.Equal(8, (await JsonAsync(client, "standing.json")).GetProperty("topics").GetArrayLength());
        double own = (await JsonAsync(client, "forecast.json")).GetProperty("passChance").GetDouble();
        double harder = (await JsonAsync(client, "forecast.json?cut-1=80")).GetProperty("passChance").GetDouble();
        Assert.InRange(harder, 0, own);
        Assert.True(harder < own);
        Assert.True((await JsonAsync(client, "plan.json")).GetProperty("blocks").GetArrayLength() > 5);
    }

    [Fact]
    public async Task Form_without_a_token_is_refused_plainly()
    {
        using HttpClient client = server.Client();
        foreach (string path in new[] { "/new", "/case/mara-venn/remove", "/case/mara-venn/restore" })
        {
            using FormUrlEncodedContent form = new([new("candidate", "Ada")]);
            using HttpResponseMessage answer = await client.PostAsync(new Uri(path, UriKind.Relative), form, Cancellation);
            string html = await answer.Content.ReadAsStringAsync(Cancellation);

            Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
            Assert.Contains("This form could not be used", html, StringComparison.Ordinal);
            Assert.DoesNotContain("   at ", html, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task More_than_25_MB_is_refused_plainly()
    {
        using HttpClient client = server.Client();
        using MultipartFormDataContent form = await TokenFormAsync(client);
        form.Add(new ByteArrayContent(new byte[26 * 1024 * 1024]), "evidence", "large.csv");
        using HttpResponseMessage answer = await client.PostAsync(new Uri("/new", UriKind.Relative), form, Cancellation);
        string html = await answer.Content.ReadAsStringAsync(Cancellation);

        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
        Assert.Contains("at most 25 MB", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_foreign_host_name_is_refused()
    {
        using HttpClient client = server.Client();
        using HttpRequestMessage request = new(HttpMethod.Get, "/");
        request.Headers.Host = "evil.example";
        using HttpResponseMessage answer = await client.SendAsync(request, Cancellation);

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
    }

    [Theory]
    [InlineData("/look.css", "text/css")]
    [InlineData("/fonts/atkinson-hyperlegible-next-latin-400-normal.woff2", "font/woff2")]
    [InlineData("/fonts/OFL.txt", "text/plain")]
    [InlineData("/_framework/blazor.web.js", "text/javascript")]
    [InlineData("/examples/exam.yaml", "text/plain")]
    public async Task Files_of_the_page_are_served_from_here(string path, string type)
    {
        using HttpClient client = server.Client();
        using HttpResponseMessage answer = await client.GetAsync(new Uri(path, UriKind.Relative), Cancellation);

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal(type, answer.Content.Headers.ContentType?.MediaType);
        Assert.True((await answer.Content.ReadAsByteArrayAsync(Cancellation)).Length > 200);
    }

    [Fact]
    public async Task Outside_development_there_are_no_specimens_and_no_traces()
    {
        string data = Path.Combine(Path.GetTempPath(), "homestretch-web-" + Guid.NewGuid().ToString("N"));
        try
        {
            await using ServerProcess production = await ServerProcess.StartAsync(data, "Production");
            using HttpClient client = new() { BaseAddress = production.Address };
            using HttpResponseMessage specimens = await client.GetAsync(new Uri("/specimens", UriKind.Relative), Cancellation);
            Assert.Equal(HttpStatusCode.NotFound, specimens.StatusCode);
            Assert.Contains("Mara Venn", await client.GetStringAsync(new Uri("/case/mara-venn", UriKind.Relative), Cancellation), StringComparison.Ordinal);
            using HttpResponseMessage script = await client.GetAsync(new Uri("/_framework/blazor.web.js", UriKind.Relative), Cancellation);
            Assert.Equal(HttpStatusCode.OK, script.StatusCode);
        }
        finally
        {
            Directory.Delete(data, recursive: true);
        }
    }

    [Fact]
    public async Task A_data_folder_that_cannot_be_used_ends_the_program_with_one_line()
    {
        string file = Path.GetTempFileName();
        try
        {
            InvalidOperationException failed = await Assert.ThrowsAsync<InvalidOperationException>(() => ServerProcess.StartAsync(file));
            Assert.Contains("ended with 1", failed.Message, StringComparison.Ordinal);
            Assert.Contains("Cases cannot be kept", failed.Message, StringComparison.Ordinal);
            Assert.DoesNotContain("   at ", failed.Message, StringComparison.Ordinal);
        }
        finally
        {
            File.Delete(file);
        }
    }

    /// <summary>A form with the token of the page for new cases.</summary>
    internal static async Task<MultipartFormDataContent> TokenFormAsync(HttpClient client)
    {
        string html = await client.GetStringAsync(new Uri("/new", UriKind.Relative), Cancellation);
        string token = System.Text.RegularExpressions.Regex.Match(html, "name=\"__RequestVerificationToken\" value=\"([^\"]+)\"").Groups[1].Value;
        return new MultipartFormDataContent { { new StringContent(token, Encoding.UTF8), "__RequestVerificationToken" } };
    }

    private static string? Header(HttpResponseMessage answer, string name)
        => answer.Headers.TryGetValues(name, out IEnumerable<string>? values) ? Assert.Single(values) : null;

    private static int Count(string text, string part) => text.Split(part).Length - 1;

    private static async Task<JsonElement> JsonAsync(HttpClient client, string path)
    {
        using HttpResponseMessage answer = await client.GetAsync(new Uri("/case/mara-venn/" + path, UriKind.Relative), Cancellation);
        answer.EnsureSuccessStatusCode();
        Assert.Equal(new MediaTypeHeaderValue("application/json", "utf-8"), answer.Content.Headers.ContentType);
        using JsonDocument document = JsonDocument.Parse(await answer.Content.ReadAsStringAsync(Cancellation));
        return document.RootElement.Clone();
    }
}
