using Microsoft.Playwright;

namespace Homestretch.Web.Tests;

/// <summary>The pages of decisions and of the diagnostic, as a person uses them.</summary>
public sealed class DecisionTests(SharedServer server, SharedBrowser browser)
{
    // These pages make many plans; a debug build on a busy machine takes its time.
    private const int Patience = 90_000;

    [Fact]
    public async Task From_the_case_to_the_dates_with_fees_and_back()
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        await page.GotoAsync("/case/mara-venn");
        await page.ClickAsync("a[href='/case/mara-venn/decide']");
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Sit, postpone, or more hours?", new() { Timeout = Patience });
        Assert.Equal(5, await page.Locator("table.decisions").First.Locator("tbody tr").CountAsync());
        Assert.Equal(0, await page.GetByText("Expected fees").CountAsync());

        await page.FillAsync("#retake-fee", "180");
        await page.FillAsync("#goal", "40");
        await page.ClickAsync("text=Compare again");
        await Assertions.Expect(page.GetByText("Expected fees", new() { Exact = true })).ToBeVisibleAsync(new() { Timeout = Patience });

        ILocator chosen = page.Locator("table.decisions").First.Locator("tr.chosen");
        Assert.Contains("booked", await chosen.InnerTextAsync(), StringComparison.Ordinal);
        Assert.Equal("40", await page.InputValueAsync("#goal"));
        Assert.True(await page.GetByText("Expected fees", new() { Exact = true }).CountAsync() > 0);
        await page.ClickAsync(".crumb a");
        await page.WaitForURLAsync("**/case/mara-venn");
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task A_retaker_sees_the_earliest_date_the_owner_allows()
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        await watched.Page.GotoAsync("/case/tobias-okell/decide");

        // The official attempt was on 2026-10-20, and the exam file says 45 days.
        Assert.Contains("4 December", await watched.Page.InnerTextAsync("section[aria-labelledby=dates-title]"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_cannot_be_used_is_said_at_its_field_and_the_rest_is_still_used()
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        await page.GotoAsync("/case/mara-venn/decide?goal=120&retake-fee=lots&last-date=2027-01-06&postpone-until=soon");

        Assert.Contains("from 1 to 99; '120' is not", await page.InnerTextAsync("#goal-hint"), StringComparison.Ordinal);
        Assert.Contains("'lots' is not", await page.InnerTextAsync("#retake-fee-hint"), StringComparison.Ordinal);
        Assert.Contains("'soon' is not", await page.InnerTextAsync("#postpone-until-hint"), StringComparison.Ordinal);
        Assert.True(await page.GetByText("until 2027-01-06 only").CountAsync() > 0);
    }

    [Fact]
    public async Task One_more_quiz_is_weighed_when_asked_for()
    {
        await using WatchedPage watched = await browser.OpenAsync(server, 390, 844);
        IPage page = watched.Page;
        await page.GotoAsync("/case/mara-venn/decide");
        await page.SelectOptionAsync("#test", "Cataloguing");
        await page.FillAsync("#items", "12");
        await page.ClickAsync("text=Work it out");
        await Assertions.Expect(page.GetByText("A quiz of 12 items on Cataloguing.")).ToBeVisibleAsync(new() { Timeout = Patience });

        string said = await page.InnerTextAsync("section[aria-labelledby=test-title]");
        Assert.Contains("A quiz of 12 items on Cataloguing", said, StringComparison.Ordinal);
        Assert.Contains("Best plan with it", said, StringComparison.Ordinal);
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task The_diagnostic_is_looked_at_from_the_case()
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        await page.GotoAsync("/case/mara-venn");
        await page.ClickAsync("a[href='/case/mara-venn/test']");
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Does the diagnostic deserve trust?", new() { Timeout = Patience });

        Assert.Contains("Does the diagnostic deserve trust?", await page.InnerTextAsync("h1"), StringComparison.Ordinal);
        Assert.Equal(8, await page.Locator("section[aria-labelledby=coverage-title] tbody tr").CountAsync());
        await page.ClickAsync("summary");
        Assert.Equal(52, await page.Locator("section[aria-labelledby=items-title] tbody tr").CountAsync());
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task What_would_change_the_plan_is_looked_at_from_the_case_under_the_same_assumptions()
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        await page.GotoAsync("/case/ines-harrow?hours=3");
        int blocks = await page.Locator(".blocks .day li").CountAsync();
        await page.ClickAsync("a[href='/case/ines-harrow/why?hours=3']");
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("What would change this plan?", new() { Timeout = Patience });

        Assert.Equal(8, await page.Locator(".order > li, .alone > li").CountAsync());
        Assert.Equal(blocks, await page.GetByText("Leaving it out costs").CountAsync());
        await page.ClickAsync("a[href='/case/ines-harrow/assumptions?hours=3']");
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("If an assumption is wrong", new() { Timeout = Patience });
        Assert.StartsWith("The plan hangs on ", await page.InnerTextAsync(".lead"), StringComparison.Ordinal);

        // One for each assumption of docs/model.md that is varied but pace, which nothing is known of.
        Assert.Equal(16, await page.Locator("section[aria-labelledby=assumptions-title] tbody").CountAsync());
        await page.ClickAsync(".crumb a");
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("What would change this plan?", new() { Timeout = Patience });
        await page.ClickAsync(".crumb a");
        await page.WaitForURLAsync("**/case/ines-harrow?hours=3");
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Without_answers_item_by_item_the_page_says_what_is_needed()
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        await watched.Page.GotoAsync("/case/tobias-okell/test");

        Assert.Contains("no answers item by item", await watched.Page.InnerTextAsync(".lead"), StringComparison.Ordinal);
    }
}
