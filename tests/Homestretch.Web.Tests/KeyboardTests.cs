using Microsoft.Playwright;

namespace Homestretch.Web.Tests;

/// <summary>The whole path with the keyboard alone: from the list of cases to a changed assumption and a downloaded handout.</summary>
public sealed class KeyboardTests(SharedServer server, SharedBrowser browser)
{
    [Fact]
    public async Task From_the_list_to_a_changed_assumption_and_a_handout()
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        await page.GotoAsync("/");

        await page.Keyboard.PressAsync("Tab");
        Assert.Equal("Skip to the content", await FocusedTextAsync(page));
        Assert.True(await FocusIsVisibleAsync(page), "The skip link shows no focus.");
        await page.Keyboard.PressAsync("Enter");
        await page.WaitForURLAsync("**/#main");
        await TabToHrefAsync(page, "/case/mara-venn");
        Assert.True(await FocusIsVisibleAsync(page), "The link shows no focus.");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Mara Venn", Level = 1 })).ToBeVisibleAsync();

        string before = await page.InnerTextAsync("[data-policy=optimised] .figure");
        await TabToIdAsync(page, "hours");
        Assert.True(await FocusIsVisibleAsync(page), "The field shows no focus.");
        await page.Keyboard.PressAsync("Control+A");
        await page.Keyboard.TypeAsync("5");
        await Assertions.Expect(page.Locator("[data-policy=optimised] .figure")).Not.ToHaveTextAsync(before);
        Assert.Equal("hours", await page.EvaluateAsync<string>("document.activeElement.id"));

        await TabToAsync(page, "Handout to print");
        await page.Keyboard.PressAsync("Enter");
        await page.WaitForURLAsync("**/case/mara-venn/handout?hours=5");
        Assert.Contains("Mara Venn", await page.InnerTextAsync("body"), StringComparison.Ordinal);
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Arrow_keys_change_a_number_step_by_step()
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        await page.GotoAsync("/case/mara-venn?hours=6");
        await page.FocusAsync("#hours");
        await page.Keyboard.PressAsync("ArrowUp");
        await page.Keyboard.PressAsync("ArrowUp");

        await Assertions.Expect(page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("hours=7(&|$)"));
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Focus_goes_down_the_page_in_its_order()
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        await page.GotoAsync("/case/mara-venn");
        double last = -1;
        for (int i = 0; i < 40; i++)
        {
            await page.Keyboard.PressAsync("Tab");
            if (await page.EvaluateAsync<bool>("document.activeElement === document.body"))
            {
                break;
            }

            // Order in the document is order of focus where nothing is taken out of it by a positive tabindex.
            Assert.True(await page.EvaluateAsync<bool>("document.activeElement.tabIndex === 0"));
            double place = await page.EvaluateAsync<double>("[...document.querySelectorAll('*')].indexOf(document.activeElement)");

            // A date field takes several steps, one for each of its parts.
            Assert.True(place >= last, $"Focus went back at step {i}.");
            last = place;
        }
    }

    private static Task<string> FocusedTextAsync(IPage page) => page.EvaluateAsync<string>("document.activeElement.innerText.trim()");

    private static Task<bool> FocusIsVisibleAsync(IPage page)
        => page.EvaluateAsync<bool>("parseFloat(getComputedStyle(document.activeElement).outlineWidth) >= 2 && getComputedStyle(document.activeElement).outlineStyle !== 'none'");

    private static async Task TabToAsync(IPage page, string text)
    {
        for (int i = 0; i < 80; i++)
        {
            await page.Keyboard.PressAsync("Tab");
            if (await FocusedTextAsync(page) == text)
            {
                return;
            }
        }

        Assert.Fail($"'{text}' cannot be reached with the keyboard.");
    }

    private static async Task TabToHrefAsync(IPage page, string address)
    {
        for (int i = 0; i < 80; i++)
        {
            await page.Keyboard.PressAsync("Tab");
            if (await page.EvaluateAsync<string?>("document.activeElement.getAttribute('href')") == address)
            {
                return;
            }
        }

        Assert.Fail($"The link to '{address}' cannot be reached with the keyboard.");
    }

    private static async Task TabToIdAsync(IPage page, string id)
    {
        for (int i = 0; i < 80; i++)
        {
            await page.Keyboard.PressAsync("Tab");
            if (await page.EvaluateAsync<string>("document.activeElement.id") == id)
            {
                return;
            }
        }

        Assert.Fail($"'{id}' cannot be reached with the keyboard.");
    }
}
