using Microsoft.Playwright;

namespace Homestretch.Web.Tests;

/// <summary>A real Chromium, found at <c>HOMESTRETCH_CHROMIUM</c> or where Debian puts it.</summary>
public sealed class SharedBrowser : IAsyncLifetime
{
    private IPlaywright? _playwright;
    private IBrowser? _browser;

    public async ValueTask InitializeAsync()
    {
        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = Environment.GetEnvironmentVariable("HOMESTRETCH_CHROMIUM") ?? "/usr/bin/chromium",
            Args = ["--no-sandbox", "--disable-gpu", "--disable-background-networking"],
        });
    }

    /// <summary>A page of its own, whose console is watched.</summary>
    public async Task<WatchedPage> OpenAsync(
        SharedServer server, int width = 1280, int height = 900, ColorScheme colours = ColorScheme.Light, bool script = true, ReducedMotion motion = ReducedMotion.NoPreference)
    {
        IBrowserContext context = await _browser!.NewContextAsync(new()
        {
            BaseURL = server.Process.Address.ToString(),
            ViewportSize = new() { Width = width, Height = height },
            ColorScheme = colours,
            ReducedMotion = motion,
            JavaScriptEnabled = script,
            Locale = "en-GB",
            TimezoneId = "Europe/London",
        });
        context.SetDefaultTimeout(15_000);

        // Some pages make dozens of plans, in the slower debug build, on a machine that runs other tests too.
        context.SetDefaultNavigationTimeout(40_000);
        return new WatchedPage(context, await context.NewPageAsync());
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }

        _playwright?.Dispose();
    }
}
