using Microsoft.Playwright;

namespace Homestretch.Web.Tests;

/// <summary>axe finds nothing on any page, light and dark, wide and on a phone; nothing runs over the edge; no console complaint.</summary>
public sealed class AccessibilityTests(SharedServer server, SharedBrowser browser)
{
    public static TheoryData<string> Pages =>
    [
        "/",
        "/new",
        "/candidates/import",
        "/candidates/import/done",
        "/exams",
        "/exams/new",
        "/exams/new/text",
        "/exams/new/paste",
        "/case/mara-venn",
        "/case/tobias-okell",
        "/case/ines-harrow",
        "/case/mara-venn?hours=99&day=never&cut-1=0&policy=neither",
        "/case/ines-harrow?hours=0",
        "/case/mara-venn/decide?retake-fee=180&postpone-fee=40&goal=never&last-date=2027-01-06",
        "/case/tobias-okell/decide",
        "/case/mara-venn/test",
        "/case/tobias-okell/test",
        "/case/mara-venn/why?hours=6",
        "/case/ines-harrow/why?hours=0",
        "/case/ines-harrow/assumptions",
        "/blueprint/mara-venn",
        "/handouts",
        "/handouts?exam=&days=many",
        "/api",
        "/problem",
        "/specimens",
    ];

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Every_page_is_without_violation(string path)
    {
        // Loaded once: a page follows the window's size and the person's colours by itself.
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        await page.GotoAsync(path);
        await CheckAsync(watched, $"{path} wide, light");
        await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Dark });
        await ContrastAsync(page, $"{path} wide, dark");
        await page.SetViewportSizeAsync(390, 844);
        await CheckAsync(watched, $"{path} phone, dark");
        await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Light });
        await ContrastAsync(page, $"{path} phone, light");

        // 200 % zoom of a window 1280 wide leaves 640 CSS pixels.
        await page.SetViewportSizeAsync(640, 450);
        await page.StaysInsideAsync($"{path} at twice the size");
    }

    [Theory]
    [InlineData("/case/mara-venn")]
    [InlineData("/case/mara-venn/test")]
    [InlineData("/case/mara-venn/why")]
    public async Task A_page_with_every_part_unfolded_is_without_violation(string path)
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        await watched.Page.GotoAsync(path);
        await watched.Page.EvaluateAsync("document.querySelectorAll('details').forEach(d => d.open = true)");
        await CheckAsync(watched, "unfolded");
    }

    [Fact]
    public async Task A_missing_page_is_without_violation()
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        IResponse? answer = await watched.Page.GotoAsync("/case/nobody");
        Assert.Equal(404, answer?.Status);
        await watched.Page.HasNoViolationAsync("missing page");
    }

    [Fact]
    public async Task The_handout_is_without_violation_on_paper_and_on_screen()
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        await watched.Page.GotoAsync("/case/mara-venn/handout");
        await CheckAsync(watched, "handout");
        await watched.Page.EmulateMediaAsync(new() { Media = Media.Print });
        await watched.Page.HasNoViolationAsync("printed");
    }

    [Fact]
    public async Task Nothing_moves_for_people_who_asked_for_less_motion()
    {
        await using WatchedPage watched = await browser.OpenAsync(server, motion: ReducedMotion.Reduce);
        foreach (string path in new[] { "/", "/new", "/exams/new", "/candidates/import", "/case/mara-venn", "/case/mara-venn/decide" })
        {
            await watched.Page.GotoAsync(path);
            int moving = await watched.Page.EvaluateAsync<int>(
                "[...document.querySelectorAll('*')].filter(e => getComputedStyle(e).transitionDuration.split(',').some(d => parseFloat(d) > 0) || getComputedStyle(e).animationName !== 'none').length");
            Assert.True(moving == 0, $"{path}: {moving} parts move");
        }
    }

    private static async Task CheckAsync(WatchedPage watched, string what)
    {
        await watched.Page.LooksRightAsync(what);
        Assert.Empty(watched.Complaints);
    }

    // All other rules have been checked at this size and in other colours.
    private static Task ContrastAsync(IPage page, string what) => page.HasNoViolationAsync(what, "color-contrast");
}
