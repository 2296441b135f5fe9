using System.Globalization;
using System.Net;
using System.Text;
using System.Text.RegularExpressions;


using Microsoft.Playwright;

namespace Homestretch.Web.Tests;

/// <summary>The import of a room.</summary>
public sealed partial class ImportTests(SharedServer server, SharedBrowser browser)
{
    private static readonly string Examples = ServerProcess.BuildValue("Examples");

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private static string InThreeWeeks => DateTime.UtcNow.AddDays(21).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    [Fact]
    public async Task A_room_is_looked_at_imported_and_planned()
    {
        string mark = Mark();
        await using WatchedPage watched = await browser.OpenAsync(server, 390, 844);
        IPage page = watched.Page;
        await page.GotoAsync("/candidates/import");
        await page.SetInputFilesAsync("#exam", TextFile("exam.yaml", await ExamAsync(mark)));
        await page.SetInputFilesAsync("#sheet", TextFile("room.csv", "candidate,free\nAbel Amberlow,Mon Wed Fri 19:00-20:30\nBrisa Amberlow,Sat 9:00-12:00\nCorin Amberlow,Wensday 19:00-20:00\n"));
        await page.SetInputFilesAsync("#evidence", Path.Combine(Examples, "cohort.csv"));
        await page.FillAsync("#zone", "Europe/London");
        await page.FillAsync("#exam-day", InThreeWeeks);
        await page.GetByRole(AriaRole.Button, new() { Name = "Look at the rows" }).ClickAsync();

        await Assertions.Expect(page.Locator("#preview")).ToHaveTextAsync("2 of 3 candidates can be imported; 1 row has something to mend.");
        await Assertions.Expect(page.Locator(".import-rows li").First).ToContainTextAsync("4.5 h a week (Europe/London) · 52 items in 1 test");
        await Assertions.Expect(page.Locator(".problem-lines")).ToContainTextAsync("room.csv:4: column 'free': 'Wensday' is not a day of the week; did you mean Wednesday?");
        await page.LooksRightAsync("preview");

        await page.GetByLabel("Brisa Amberlow").UncheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Import up to 2 candidates" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("One candidate is here");
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToHaveTextAsync("The first plan is made.", new() { Timeout = 60_000 });
        await page.GetByRole(AriaRole.Link, new() { Name = "Abel Amberlow" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Abel Amberlow", Level = 1 })).ToBeVisibleAsync();
        string kept = await (await page.APIRequest.GetAsync(page.Url + "/kept")).TextAsync();
        Assert.Contains("Your first plan.", kept, StringComparison.Ordinal);
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Everybody_who_was_imported_gets_a_link_in_one_step_and_it_is_shown_once()
    {
        await using WatchedPage watched = await browser.OpenAsync(server, 390, 844);
        IPage page = watched.Page;
        using HttpClient client = server.Client();
        string[] people = [.. new[] { "Una", "Vito", "Wim" }.Select(n => $"{n} Fell {Guid.NewGuid().ToString("N")[..6]}")];
        string preview = await CheckAsync(client, await ExamAsync(Mark()), "candidate,free\n" + string.Concat(people.Select(p => p + ",Mon 19:00-21:00\n")), await EvidenceAsync(people));
        string done = await KeepAsync(client, preview, null, "2", "3", "4");
        string html = await PageAsync(client, done);
        string[] keys = [.. CaseLink().Matches(html).Select(m => m.Groups[1].Value)];
        Assert.Contains("3 of them have no personal link yet", html, StringComparison.Ordinal);

        // One has a link already, which goes on opening.
        using HttpResponseMessage own = await client.PutAsync(new Uri($"/api/v1/cases/{keys[0]}/link", UriKind.Relative), null, Cancellation);
        string handedOut = Regex.Match(await own.Content.ReadAsStringAsync(Cancellation), "/me/[\\w-]+").Value;
        await page.GotoAsync(done);
        await page.GetByRole(AriaRole.Button, new() { Name = "Make 2 links to hand out" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("2 links to hand out");
        await Assertions.Expect(page.Locator(".link-sheet h2")).ToHaveTextAsync(people[1..]);
        await Assertions.Expect(page.Locator(".link-sheet .qr")).ToHaveCountAsync(2);
        await page.LooksRightAsync("links");
        string sheet = new Uri(page.Url).PathAndQuery;
        string[] links = [.. (await page.Locator(".link-text").AllInnerTextsAsync()).Select(t => new Uri(t.Trim()).AbsolutePath)];
        foreach ((string link, string person) in links.Prepend(handedOut).Zip(people))
        {
            Assert.Contains(person, await PageAsync(client, link), StringComparison.Ordinal);
        }

        // Printed, there is nothing but the pieces; and nobody is left without.
        await page.EmulateMediaAsync(new() { Media = Media.Print });
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToBeHiddenAsync();
        await Assertions.Expect(page.Locator(".link-sheet").First).ToBeVisibleAsync();
        Assert.DoesNotContain("no personal link yet", await PageAsync(client, done), StringComparison.Ordinal);
        using (HttpResponseMessage revoked = await client.DeleteAsync(new Uri($"/api/v1/cases/{keys[1]}/link", UriKind.Relative), Cancellation))
        {
            Assert.Equal(HttpStatusCode.NoContent, revoked.StatusCode);
        }

        Assert.DoesNotContain(links[0], await PageAsync(client, sheet), StringComparison.Ordinal);
        Assert.Contains(links[1], await PageAsync(client, sheet), StringComparison.Ordinal);
        Assert.Contains("These links are no longer shown", await PageAsync(client, "/candidates/import/links?made=gone"), StringComparison.Ordinal);
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Nobody_is_imported_twice_and_everybody_is_named()
    {
        using HttpClient client = server.Client();
        string exam = await ExamAsync(Mark());
        string evidence = await EvidenceAsync("Ada Fell", "Bo Fell", "Cy Fell");
        string first = await CheckAsync(client, exam, "candidate,free\nAda Fell,Mon 19:00-21:00\nBo Fel,Mon 19:00-21:00\n", evidence);
        string html = await PageAsync(client, first);
        Assert.Contains("1 of 2 candidates can be imported; 1 row has something to mend.", html, StringComparison.Ordinal);
        Assert.Contains("room.csv:3: column 'candidate': the evidence tells nothing of 'Bo Fel'. Did you mean 'Bo Fell'?", html, StringComparison.Ordinal);
        Assert.Contains("2 people in the evidence are not in the sheet", html, StringComparison.Ordinal);
        Assert.Contains("Bo Fell, Cy Fell", html, StringComparison.Ordinal);

        // Nothing ticked, nothing done; then one, and the same form sent once more.
        Assert.EndsWith("&none=yes#result", await KeepAsync(client, first), StringComparison.Ordinal);
        string form = await PageAsync(client, first);
        string done = await KeepAsync(client, first, form, "2", "3", "99");
        Assert.Contains("/candidates/import/done?run=", done, StringComparison.Ordinal);
        Assert.Contains("One candidate is here", await PageAsync(client, done), StringComparison.Ordinal);
        Assert.Contains("has been imported already", await PageAsync(client, await KeepAsync(client, first, form, "2")), StringComparison.Ordinal);

        string again = await PageAsync(client, await CheckAsync(client, exam, "candidate,free\nada fell,Mon 19:00-21:00\nBo Fell,Mon 19:00-21:00\n", evidence));
        Assert.Contains("1 of 2 candidates can be imported; 1 is here already.", again, StringComparison.Ordinal);
        Assert.Contains("Ada Fell has a case for this exam already", again, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_looks_like_code_or_a_formula_is_shown_as_text()
    {
        const string script = "<script>alert(1)</script>";
        const string formula = "=HYPERLINK(\"http://example.org\")";
        using HttpClient client = server.Client();
        string evidence = await EvidenceAsync(script, formula);
        string address = await CheckAsync(client, await ExamAsync(Mark()), $"candidate,free\n{script},Mon 19:00-21:00\n\"{formula.Replace("\"", "\"\"", StringComparison.Ordinal)}\",Mon 19:00-21:00\n", evidence);
        string raw = await client.GetStringAsync(Relative(address), Cancellation);
        Assert.Contains("All 2 candidates can be imported.", raw, StringComparison.Ordinal);
        Assert.DoesNotContain(script, raw, StringComparison.Ordinal);
        Assert.Contains(WebUtility.HtmlEncode(script), raw, StringComparison.Ordinal);
        Assert.Contains(WebUtility.HtmlEncode(formula), raw, StringComparison.Ordinal);

        string done = await KeepAsync(client, address, WebUtility.HtmlDecode(raw), "2", "3");
        string shown = await client.GetStringAsync(Relative(done), Cancellation);
        Assert.DoesNotContain(script, shown, StringComparison.Ordinal);
        string key = CaseLink().Matches(shown)[1].Groups[1].Value;
        using System.IO.Compression.ZipArchive zip = new(await client.GetStreamAsync(Relative($"/case/{key}/export"), Cancellation));
        using StreamReader reader = new(zip.GetEntry($"cases/{key}/evidence.csv")!.Open());
        Assert.Contains("\"'=HYPERLINK(", await reader.ReadToEndAsync(Cancellation), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Files_that_cannot_be_used_are_named_and_the_others_stay()
    {
        using HttpClient client = server.Client();
        string address = await CheckAsync(client, "sections: 3\n", "name,freetime\nAda,Mon\n", "candidate;date\nAda;2026-11-20\n", zone: "Mars/Olympus", day: "2001-01-01");
        string html = await PageAsync(client, address);

        Assert.Contains("exam.yaml:1:", html, StringComparison.Ordinal);
        Assert.Contains("room.csv:1: There is no column 'freetime'. Did you mean 'free time'?", html, StringComparison.Ordinal);
        Assert.Contains("Time zone: 'Mars/Olympus' is not a known time zone", html, StringComparison.Ordinal);
        Assert.Contains("'2001-01-01' is not", html, StringComparison.Ordinal);
        Assert.Contains("Kept: <strong>room.csv</strong>", html, StringComparison.Ordinal);
        Assert.DoesNotContain("can be imported", html, StringComparison.Ordinal);

        string empty = await PageAsync(client, await CheckAsync(client, null, null, null));
        foreach (string missing in new[] { "Choose an exam that is here already", "Choose the candidates sheet", "Choose the evidence of the room" })
        {
            Assert.Contains(missing, empty, StringComparison.Ordinal);
        }
    }

    private static string Mark() => "Import " + Guid.NewGuid().ToString("N");

    // An exam of its own, so that tests do not meet each other's people.
    private static async Task<string> ExamAsync(string name)
        => Name().Replace(await File.ReadAllTextAsync(Path.Combine(Examples, "exam.yaml"), Cancellation), $"exam: {name}", 1);

    // The answers of one person of the demo's room, for each of these.
    private static async Task<string> EvidenceAsync(params string[] people)
    {
        string[] lines = await File.ReadAllLinesAsync(Path.Combine(Examples, "cohort.csv"), Cancellation);
        string[] answers = [.. lines.Where(l => l.StartsWith("Abel Amberlow,", StringComparison.Ordinal)).Select(l => l["Abel Amberlow".Length..])];
        return string.Join('\n', [lines[0], .. people.SelectMany(p => answers.Select(a => $"\"{p.Replace("\"", "\"\"", StringComparison.Ordinal)}\"{a}"))]);
    }

    private static FilePayload TextFile(string name, string text) => new() { Name = name, MimeType = "text/plain", Buffer = Encoding.UTF8.GetBytes(text) };

    private static Uri Relative(string address) => new(address.Split('#')[0], UriKind.Relative);

    private static async Task<string> PageAsync(HttpClient client, string address) => WebUtility.HtmlDecode(await client.GetStringAsync(Relative(address), Cancellation));

    private static async Task<string> CheckAsync(HttpClient client, string? exam, string? sheet, string? evidence, string zone = "Europe/London", string? day = null)
    {
        using MultipartFormDataContent form = await RouteTests.TokenFormAsync(client);
        foreach ((string field, string name, string? text) in new[] { ("exam", "exam.yaml", exam), ("sheet", "room.csv", sheet), ("evidence", "evidence.csv", evidence) })
        {
            if (text is not null)
            {
                form.Add(new ByteArrayContent(Encoding.UTF8.GetBytes(text)), field, name);
            }
        }

        form.Add(new StringContent(zone), "zone");
        form.Add(new StringContent(day ?? InThreeWeeks), "exam-day");
        return await RedirectAsync(client, "/candidates/import", form);
    }

    private static async Task<string> KeepAsync(HttpClient client, string preview, string? page = null, params string[] rows)
    {
        page ??= await PageAsync(client, preview);
        using FormUrlEncodedContent form = new(
        [
            new("__RequestVerificationToken", Token().Match(page).Groups[1].Value),
            new("draft", DraftField().Match(page).Groups[1].Value),
            .. rows.Select(r => new KeyValuePair<string, string>("take", r)),
        ]);
        return await RedirectAsync(client, "/candidates/import/keep", form);
    }

    private static async Task<string> RedirectAsync(HttpClient client, string path, HttpContent form)
    {
        using HttpResponseMessage answer = await client.PostAsync(new Uri(path, UriKind.Relative), form, Cancellation);
        Assert.Equal(HttpStatusCode.SeeOther, answer.StatusCode);
        return answer.Headers.Location!.ToString();
    }

    [GeneratedRegex("(?m)^exam: .*$")]
    private static partial Regex Name();

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex Token();

    [GeneratedRegex("name=\"draft\" value=\"([^\"]+)\"")]
    private static partial Regex DraftField();

    [GeneratedRegex("href=\"/case/([^\"]+)\"")]
    private static partial Regex CaseLink();
}
