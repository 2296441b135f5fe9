using System.IO.Compression;
using System.Net;


using Microsoft.Playwright;

namespace Homestretch.Web.Tests;

/// <summary>The page of what is kept: adding, taking out, putting back, deciding, taking away and erasing.</summary>
public sealed class KeptTests(SharedServer server, SharedBrowser browser)
{
    private static readonly string Examples = ServerProcess.BuildValue("Examples");

    [Fact]
    public async Task Added_results_change_the_figures_and_taking_them_out_changes_them_back()
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        string address = await UploadTests.MakeAsync(page, "mara-venn");
        string before = await StandingAsync(page, address);

        await page.GotoAsync(address + "/kept");
        await page.SetInputFilesAsync("#evidence", Path.Combine(Examples, "mara-venn.week-2.csv"));
        await page.SetInputFilesAsync("#log", Path.Combine(Examples, "mara-venn.log.csv"));
        await page.GetByRole(AriaRole.Button, new() { Name = "Add", Exact = true }).ClickAsync();
        await page.WaitForURLAsync("**/kept");
        ILocator added = page.Locator(".rows li", new() { HasText = "mara-venn.week-2.csv" });
        Assert.NotEqual(0, await added.CountAsync());
        Assert.Equal(10, await page.Locator(".rows li", new() { HasText = "mara-venn.log.csv" }).CountAsync());

        Assert.Equal(2, await page.Locator("section[aria-labelledby=plans-title] tbody tr").CountAsync());
        Assert.Contains("Your coach added mara-venn.week-2.csv, mara-venn.log.csv.", await page.Locator("section[aria-labelledby=plans-title] tbody").TextContentAsync(), StringComparison.Ordinal);

        Assert.NotEqual(before, await StandingAsync(page, address));
        foreach (string file in new[] { "mara-venn.week-2.csv", "mara-venn.log.csv" })
        {
            ILocator open = page.Locator(".rows li", new() { HasText = file }).GetByRole(AriaRole.Button, new() { Name = "Take out" });
            for (int left = await open.CountAsync(); left > 0; left--)
            {
                await open.First.ClickAsync();
                await Assertions.Expect(open).ToHaveCountAsync(left - 1);
            }
        }

        Assert.Equal(before, await StandingAsync(page, address));
        await page.Locator(".rows li", new() { HasText = "mara-venn.week-2.csv" }).GetByRole(AriaRole.Button, new() { Name = "Put back" }).First.ClickAsync();
        await Assertions.Expect(page.Locator(".rows li", new() { HasText = "mara-venn.week-2.csv" }).GetByRole(AriaRole.Button, new() { Name = "Take out" })).ToHaveCountAsync(1);
        Assert.NotEqual(before, await StandingAsync(page, address));
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task A_file_that_does_not_go_with_the_case_is_refused_line_by_line()
    {
        await using WatchedPage watched = await browser.OpenAsync(server, script: false);
        IPage page = watched.Page;
        string address = await UploadTests.MakeAsync(page, "ines-harrow");
        await page.GotoAsync(address + "/kept");
        string before = await page.InnerTextAsync("section[aria-labelledby=evidence-title]");

        // The same rows once more would count twice.
        await page.SetInputFilesAsync("#evidence", Path.Combine(Examples, "ines-harrow.csv"));
        await page.GetByRole(AriaRole.Button, new() { Name = "Add", Exact = true }).ClickAsync();

        Assert.Matches("ines-harrow\\.csv:\\d+: ", await page.InnerTextAsync(".problems"));
        Assert.Equal(before, await page.InnerTextAsync("section[aria-labelledby=evidence-title]"));

        await page.GetByRole(AriaRole.Button, new() { Name = "Add", Exact = true }).ClickAsync();
        Assert.Contains("Choose at least one file", await page.InnerTextAsync(".problems"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_decision_moves_the_exam_day_until_it_is_taken_out()
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        string address = await UploadTests.MakeAsync(page, "tobias-okell");
        string before = await page.InnerTextAsync(".case-title");
        await page.GotoAsync(address + "/kept");
        await page.FillAsync("#text", "Postpone by two weeks <b>");
        await page.FillAsync("#exam-day", DateTime.UtcNow.AddDays(35).ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture));
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep this decision" }).ClickAsync();
        await Assertions.Expect(page.Locator(".rows li", new() { HasText = "Postpone by two weeks <b>" })).ToHaveCountAsync(1);

        await page.GotoAsync(address);
        Assert.NotEqual(before, await page.InnerTextAsync(".case-title"));
        await page.GotoAsync(address + "/kept");
        await page.GetByRole(AriaRole.Button, new() { NameString = "Take out Postpone" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { NameString = "Put back Postpone" })).ToHaveCountAsync(1);
        await page.GotoAsync(address);
        Assert.Equal(before, await page.InnerTextAsync(".case-title"));
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Everything_goes_out_as_a_zip_and_an_erased_person_is_not_in_it()
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;

        // A name of its own: who is erased goes from every case of this exam.
        string address = await UploadTests.MakeAsync(page, "ines-harrow", ("Ines Harrow", "Zora Quill"));
        string key = address.Split('/')[^1];
        Assert.Contains(await EntriesAsync("/export"), e => e == $"cases/{key}/evidence.csv");
        Assert.Contains(await EntriesAsync($"/case/{key}/export"), e => e == $"cases/{key}/case.json");

        await page.GotoAsync(address + "/kept");
        await page.CheckAsync("input[name=sure]");
        await page.GetByRole(AriaRole.Button, new() { Name = "Erase", Exact = true }).ClickAsync();

        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("erased for good");
        Assert.Equal(404, (await page.APIRequest.GetAsync(server.At(address).ToString())).Status);
        Assert.DoesNotContain(await EntriesAsync("/export"), e => e.Contains(key, StringComparison.Ordinal));
        using HttpClient client = server.Client();
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync(new Uri($"/case/{key}/export", UriKind.Relative), TestContext.Current.CancellationToken)).StatusCode);
    }

    [Fact]
    public async Task The_page_is_without_violation()
    {
        foreach ((int width, ColorScheme colours) in new[] { (1280, ColorScheme.Light), (390, ColorScheme.Dark) })
        {
            await using WatchedPage watched = await browser.OpenAsync(server, width, 844, colours);
            await watched.Page.GotoAsync(await UploadTests.MakeAsync(watched.Page, "tobias-okell") + "/kept?unsure=yes&undecided=yes&draft=gone");
            await watched.Page.LooksRightAsync($"{width} {colours}");
            Assert.Empty(watched.Complaints);
        }
    }

    // Names the day and not the minute, so that two of them can be compared.
    private async Task<string> StandingAsync(IPage page, string address)
        => await (await page.APIRequest.GetAsync(server.At(address + "/standing.json").ToString())).TextAsync();

    private async Task<string[]> EntriesAsync(string path)
    {
        using HttpClient client = server.Client();
        await using Stream stream = await client.GetStreamAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken);
        using MemoryStream copy = new();
        await stream.CopyToAsync(copy, TestContext.Current.CancellationToken);
        using ZipArchive zip = new(copy);
        return [.. zip.Entries.Select(e => e.FullName)];
    }
}
