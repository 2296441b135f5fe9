using System.Globalization;

using Microsoft.Playwright;

namespace Homestretch.Web.Tests;

/// <summary>Changing an assumption moves pass chance and plan in the page, without loading it anew.</summary>
public sealed class WorkbenchTests(SharedServer server, SharedBrowser browser)
{
    private const string Chance = "[data-policy=optimised] .figure";

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("hours", "4")]
    [InlineData("day", "2026-12-05")]
    [InlineData("cut-1", "75")]
    [InlineData("cut-2", "50")]
    public async Task Changing_a_field_moves_the_figures_in_place(string field, string value)
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        await page.GotoAsync("/case/mara-venn");
        await MarkAsync(page);
        string before = await page.InnerTextAsync(Chance);
        string plan = await page.InnerTextAsync(".section-lead");

        await page.FillAsync($"#{field}", value);
        await Assertions.Expect(page.Locator(Chance)).Not.ToHaveTextAsync(before);

        Assert.Contains($"{field}={value}", page.Url, StringComparison.Ordinal);
        Assert.True(await IsMarkedAsync(page), "The page was loaded anew.");
        Assert.Equal(value, await page.InputValueAsync($"#{field}"));
        Assert.Equal(field, await page.EvaluateAsync<string>("document.activeElement.id"));
        Assert.Contains(before + " before the change", await page.InnerTextAsync("[data-policy=optimised] .outcome-note"), StringComparison.Ordinal);
        if (!field.StartsWith("cut", StringComparison.Ordinal))
        {
            Assert.NotEqual(plan, await page.InnerTextAsync(".section-lead"));
        }

        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Where_the_uncertainty_comes_from_is_a_sentence_with_its_parts_one_tap_away()
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        await page.GotoAsync("/case/mara-venn");
        ILocator table = page.Locator(".uncertainty table");
        await Assertions.Expect(table).ToBeHiddenAsync();

        await page.ClickAsync(".uncertainty summary");
        await Assertions.Expect(table).ToBeVisibleAsync();
        Assert.Matches("^The largest part of the uncertainty, [0-9]+ %, is ", await page.InnerTextAsync(".uncertainty summary"));
        int[] figures = [.. (await table.Locator("td").AllInnerTextsAsync()).Select(t => int.Parse(t.Split(' ')[0], CultureInfo.InvariantCulture))];
        Assert.Equal(100, figures.Where((_, i) => i % 2 == 0).Sum());
        Assert.Equal(100, figures.Where((_, i) => i % 2 == 1).Sum());

        // Only with study does it matter how fast study works.
        Assert.Equal(0, figures[2]);
        Assert.True(figures[3] > 0);
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Typing_on_while_an_answer_is_on_its_way_loses_no_key()
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        await page.GotoAsync("/case/mara-venn");
        await page.FocusAsync("#hours");
        await page.Keyboard.PressAsync("Control+A");
        foreach (char key in "10.25")
        {
            await page.Keyboard.PressAsync(key.ToString());
            await Task.Delay(90, Cancellation);
        }

        await Assertions.Expect(page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("hours=10\\.25"));
        await page.WaitForLoadStateAsync(LoadState.NetworkIdle);
        Assert.Equal("10.25", await page.InputValueAsync("#hours"));
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Choosing_the_practice_order_shows_its_plan()
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        await page.GotoAsync("/case/mara-venn");
        await MarkAsync(page);

        await page.GetByLabel("practice order").CheckAsync();

        await Assertions.Expect(page.Locator("[data-policy=practice-order]")).ToHaveClassAsync(new System.Text.RegularExpressions.Regex("chosen"));
        Assert.EndsWith("policy=practice-order", page.Url, StringComparison.Ordinal);
        Assert.True(await IsMarkedAsync(page));
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task A_value_that_cannot_be_used_stays_and_its_field_says_what_can()
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        await page.GotoAsync("/case/mara-venn");
        string before = await page.InnerTextAsync(Chance);

        await page.FillAsync("#hours", "99");

        await Assertions.Expect(page.Locator("#hours-hint")).ToContainTextAsync("'99' is not");
        Assert.Equal("99", await page.InputValueAsync("#hours"));
        Assert.Equal("true", await page.GetAttributeAsync("#hours", "aria-invalid"));
        Assert.Equal(before, await page.InnerTextAsync(Chance));

        await page.GetByText("Back to your own figures").ClickAsync();
        await Assertions.Expect(page.Locator("#hours")).Not.ToHaveValueAsync("99");
        Assert.EndsWith("/case/mara-venn", page.Url, StringComparison.Ordinal);
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task One_step_back_leaves_the_page_and_forward_brings_the_assumptions_back()
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        await page.GotoAsync("/");
        await page.Locator("a[href='/case/mara-venn']").ClickAsync();
        string before = await page.InnerTextAsync(Chance);
        await page.FillAsync("#hours", "4");
        await Assertions.Expect(page.Locator(Chance)).Not.ToHaveTextAsync(before);
        string then = await page.InnerTextAsync(Chance);

        await page.GoBackAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Three people to try it with" })).ToBeVisibleAsync();
        await page.GoForwardAsync();
        await Assertions.Expect(page.Locator(Chance)).ToHaveTextAsync(then);
        Assert.Equal("4", await page.InputValueAsync("#hours"));
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Without_a_script_the_button_does_the_same()
    {
        await using WatchedPage watched = await browser.OpenAsync(server, script: false);
        IPage page = watched.Page;
        await page.GotoAsync("/case/mara-venn");
        string before = await page.InnerTextAsync(Chance);

        await page.FillAsync("#hours", "4");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show what that changes" }).ClickAsync();

        await Assertions.Expect(page.Locator(Chance)).Not.ToHaveTextAsync(before);
        Assert.Equal("4", await page.InputValueAsync("#hours"));
    }

    [Fact]
    public async Task A_changed_assumption_costs_the_server_less_than_four_tenths_of_a_second()
    {
        const int Warming = 12;
        const int Counted = 20;
        string data = Path.Combine(Path.GetTempPath(), "homestretch-web-" + Guid.NewGuid().ToString("N"));
        try
        {
            // A server of its own, so that its processor time is that of these requests; elapsed time would measure how busy
            // the machine is with other tests.
            await using ServerProcess quiet = await ServerProcess.StartAsync(data);
            using HttpClient client = new() { BaseAddress = quiet.Address };
            TimeSpan before = TimeSpan.Zero;
            for (int i = 0; i < Warming + Counted; i++)
            {
                if (i == Warming)
                {
                    before = quiet.ProcessorTime;
                }

                string address = string.Create(CultureInfo.InvariantCulture, $"/case/mara-venn?hours={4 + (i % 20 * 0.5)}&cut-1={60 + (i % 9)}&day=2026-12-{10 + (i % 11)}");
                using HttpResponseMessage answer = await client.GetAsync(new Uri(address, UriKind.Relative), Cancellation);
                answer.EnsureSuccessStatusCode();
            }

            // Standing, forecast, plan, page and pictures, in the slower debug build.
            double each = (quiet.ProcessorTime - before).TotalMilliseconds / Counted;
            TestContext.Current.TestOutputHelper?.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{each:0} ms of processor time a request"));
            Assert.InRange(each, 0, 400);
        }
        finally
        {
            Directory.Delete(data, recursive: true);
        }
    }

    // A value in the page's memory that only survives while the page is not loaded anew.
    private static Task<string> MarkAsync(IPage page) => page.EvaluateAsync<string>("window.mark = 'kept'");

    private static Task<bool> IsMarkedAsync(IPage page) => page.EvaluateAsync<bool>("window.mark === 'kept'");
}
