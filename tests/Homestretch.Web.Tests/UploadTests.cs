using System.Globalization;
using System.Text;

using Microsoft.Playwright;

namespace Homestretch.Web.Tests;

/// <summary>Making, mending, removing and restoring a case in a real browser.</summary>
public sealed class UploadTests(SharedServer server, SharedBrowser browser)
{
    private static readonly string Examples = ServerProcess.BuildValue("Examples");

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private static string InThreeWeeks => DateTime.UtcNow.AddDays(21).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    [Fact]
    public async Task Good_files_make_a_case_that_can_be_removed_and_brought_back()
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        await page.GotoAsync("/new");
        await ChooseAsync(page, "mara-venn");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the case" }).ClickAsync();

        await page.WaitForURLAsync("**/case/mara-venn-*");
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Mara Venn", Level = 1 })).ToBeVisibleAsync();
        Uri address = new(page.Url);

        await page.GetByRole(AriaRole.Button, new() { Name = "Remove this case" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("The case of Mara Venn has been removed");
        Assert.Equal(404, (await page.APIRequest.GetAsync(address.ToString())).Status);

        await page.GetByRole(AriaRole.Button, new() { Name = "Bring it back" }).ClickAsync();
        await page.WaitForURLAsync("**" + address.AbsolutePath);
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Mara Venn", Level = 1 })).ToBeVisibleAsync();
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Bad_files_are_named_line_by_line_and_nothing_has_to_be_chosen_twice()
    {
        string exam = await File.ReadAllTextAsync(Path.Combine(Examples, "exam.yaml"), Cancellation);
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        await page.GotoAsync("/new");
        await page.SetInputFilesAsync("#exam", TextFile("broken.yaml", exam.Replace("percent: 65", "percent: 650", StringComparison.Ordinal)));
        await page.SetInputFilesAsync("#evidence", Path.Combine(Examples, "mara-venn.csv"));
        await page.SetInputFilesAsync("#free", TextFile("odd.yaml", "zone: Mars/Olympus\nweekly: []\n"));
        await page.FillAsync("#exam-day", "2001-01-01");
        await page.FillAsync("#candidate", "Mara Venn");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the case" }).ClickAsync();

        await page.WaitForURLAsync("**/new?draft=*");
        string problems = await page.InnerTextAsync(".problems");
        Assert.Matches("broken\\.yaml:\\d+: .*650", problems);
        Assert.Matches("odd\\.yaml:1: .*Mars/Olympus", problems);
        Assert.Contains("'2001-01-01' is not", problems, StringComparison.Ordinal);
        Assert.Equal("Mara Venn", await page.InputValueAsync("#candidate"));
        Assert.Equal("2001-01-01", await page.InputValueAsync("#exam-day"));
        Assert.Equal(["broken.yaml", "mara-venn.csv", "odd.yaml"], await page.Locator(".kept strong").AllInnerTextsAsync());

        // Each problem leads to its field.
        await page.Locator(".problems a").First.ClickAsync();
        Assert.Contains("/new?draft=", page.Url, StringComparison.Ordinal);

        // Only the mended files are chosen anew; the evidence is still there.
        await page.SetInputFilesAsync("#exam", Path.Combine(Examples, "exam.yaml"));
        await page.SetInputFilesAsync("#free", Path.Combine(Examples, "mara-venn.free.yaml"));
        await page.FillAsync("#exam-day", InThreeWeeks);
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the case" }).ClickAsync();
        await page.WaitForURLAsync("**/case/mara-venn-*");
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task An_empty_form_says_what_is_missing()
    {
        await using WatchedPage watched = await browser.OpenAsync(server, script: false);
        IPage page = watched.Page;
        await page.GotoAsync("/new");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the case" }).ClickAsync();

        await Assertions.Expect(page.Locator(".problems li")).ToHaveCountAsync(4);
        Assert.Equal("true", await page.GetAttributeAsync("#exam", "aria-invalid"));
        Assert.Equal("true", await page.GetAttributeAsync("#exam-day", "aria-invalid"));
    }

    [Fact]
    public async Task Evidence_on_several_people_asks_for_whom()
    {
        string one = await File.ReadAllTextAsync(Path.Combine(Examples, "ines-harrow.csv"), Cancellation);
        string both = one + string.Join('\n', one.Split('\n').Skip(1)).Replace("Ines Harrow", "Ada Other", StringComparison.Ordinal);
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        await page.GotoAsync("/new");
        await ChooseAsync(page, "ines-harrow");
        await page.SetInputFilesAsync("#evidence", TextFile("both.csv", both));
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the case" }).ClickAsync();

        await Assertions.Expect(page.Locator(".problems")).ToContainTextAsync("Ines Harrow, Ada Other");
        await page.FillAsync("#candidate", "ada other");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the case" }).ClickAsync();
        await page.WaitForURLAsync("**/case/ada-other-*");
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Ada Other", Level = 1 })).ToBeVisibleAsync();
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Names_that_look_like_code_are_shown_and_never_run()
    {
        const string Person = "<img src=x onerror=alert(1)>";
        const string Topic = "<script>alert(2)</script>";
        string exam = (await File.ReadAllTextAsync(Path.Combine(Examples, "exam.yaml"), Cancellation))
            .Replace("exam: Certificate for Registrars of Small Museums", "exam: '\"><svg onload=alert(3)>'", StringComparison.Ordinal)
            .Replace("name: Cataloguing", $"name: '{Topic}'", StringComparison.Ordinal);
        string evidence = (await File.ReadAllTextAsync(Path.Combine(Examples, "ines-harrow.csv"), Cancellation))
            .Replace("Ines Harrow", Person, StringComparison.Ordinal)
            .Replace("Cataloguing", Topic, StringComparison.Ordinal);
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;

        // First with a missing file, so that the form shows the hostile file name too.
        await page.GotoAsync("/new");
        await page.SetInputFilesAsync("#exam", TextFile("<b onclick=alert(4)>.yaml", exam));
        await page.SetInputFilesAsync("#evidence", TextFile("evidence.csv", evidence));
        await page.FillAsync("#candidate", Person);
        await page.FillAsync("#exam-day", InThreeWeeks);
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the case" }).ClickAsync();
        await Assertions.Expect(page.Locator(".problems li")).ToHaveCountAsync(1);
        await Assertions.Expect(page.Locator(".kept strong").First).ToHaveTextAsync("<b onclick=alert(4)>.yaml");

        await page.SetInputFilesAsync("#free", Path.Combine(Examples, "mara-venn.free.yaml"));
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the case" }).ClickAsync();
        await page.WaitForURLAsync("**/case/*");
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync(Person);
        string address = page.Url;
        string key = new Uri(address).Segments[^1];
        foreach (string path in new[] { address, "/", $"/blueprint/{key}", $"/case/{key}/handout" })
        {
            await page.GotoAsync(path);
            Assert.Equal(0, await page.EvaluateAsync<int>("document.querySelectorAll('img, svg[onload], main script, b[onclick]').length"));
        }

        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Cases_survive_a_restart()
    {
        string data = Path.Combine(Path.GetTempPath(), "homestretch-web-" + Guid.NewGuid().ToString("N"));
        try
        {
            string path;
            await using (ServerProcess first = await ServerProcess.StartAsync(data))
            {
                using HttpClient client = new(new HttpClientHandler { AllowAutoRedirect = false }) { BaseAddress = first.Address };
                using MultipartFormDataContent form = await RouteTests.TokenFormAsync(client);
                foreach ((string field, string name) in new[] { ("exam", "exam.yaml"), ("evidence", "tobias-okell.csv"), ("free", "tobias-okell.free.yaml"), ("busy", "tobias-okell.busy.ics") })
                {
                    form.Add(new ByteArrayContent(await File.ReadAllBytesAsync(Path.Combine(Examples, name), Cancellation)), field, name);
                }

                form.Add(new StringContent(InThreeWeeks), "exam-day");
                form.Add(new StringContent(""), "candidate");
                using HttpResponseMessage answer = await client.PostAsync(new Uri("/new", UriKind.Relative), form, Cancellation);
                Assert.Equal(System.Net.HttpStatusCode.SeeOther, answer.StatusCode);
                path = answer.Headers.Location!.ToString();
                Assert.StartsWith("/case/tobias-okell-", path, StringComparison.Ordinal);
            }

            await using ServerProcess second = await ServerProcess.StartAsync(data);
            using HttpClient again = new() { BaseAddress = second.Address };
            Assert.Contains("Tobias Okell", await again.GetStringAsync(new Uri(path, UriKind.Relative), Cancellation), StringComparison.Ordinal);
            Assert.Contains(path, await again.GetStringAsync(new Uri("/", UriKind.Relative), Cancellation), StringComparison.Ordinal);
        }
        finally
        {
            Directory.Delete(data, recursive: true);
        }
    }

    private static FilePayload TextFile(string name, string text) => new() { Name = name, MimeType = "text/plain", Buffer = Encoding.UTF8.GetBytes(text) };

    /// <summary>Makes a case of the demo's files; returns its address.</summary>
    /// <param name="page">A page.</param>
    /// <param name="name">Whose files, such as <c>mara-venn</c>.</param>
    /// <param name="renamed">The person's name there and another one to take its place; null for the name there.</param>
    internal static async Task<string> MakeAsync(IPage page, string name, (string From, string To)? renamed = null)
    {
        await page.GotoAsync("/new");
        await ChooseAsync(page, name);
        if (renamed is { } names)
        {
            string evidence = await File.ReadAllTextAsync(Path.Combine(Examples, name + ".csv"), Cancellation);
            await page.SetInputFilesAsync("#evidence", TextFile(name + ".csv", evidence.Replace(names.From, names.To, StringComparison.Ordinal)));
        }

        await page.GetByRole(AriaRole.Button, new() { Name = "Make the case" }).ClickAsync();
        await page.WaitForURLAsync("**/case/*");
        return new Uri(page.Url).AbsolutePath;
    }

    private static async Task ChooseAsync(IPage page, string person)
    {
        await page.SetInputFilesAsync("#exam", Path.Combine(Examples, "exam.yaml"));
        await page.SetInputFilesAsync("#evidence", Path.Combine(Examples, person + ".csv"));
        await page.SetInputFilesAsync("#free", Path.Combine(Examples, person + ".free.yaml"));
        await page.SetInputFilesAsync("#busy", Path.Combine(Examples, person + ".busy.ics"));
        await page.FillAsync("#exam-day", InThreeWeeks);
    }
}
