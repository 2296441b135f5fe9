using Deque.AxeCore.Commons;

using Microsoft.Playwright;

namespace Homestretch.Web.Tests;

/// <summary>What every page must be: without a violation that axe knows of, and inside the window's width.</summary>
/// <remarks>axe runs once in the page, which has no frames, and only what it objects to comes back. The bindings' own way opens a second page for each run and moves every node that passed through three processes: four times as slow.</remarks>
internal static class PageCheck
{
    private const string Run = """
        async rules => {
          const only = rules.length ? { runOnly: { type: 'rule', values: rules } } : {};
          const result = await axe.run(document, { ...only, resultTypes: ['violations'] });
          return [String(result.passes.length), ...result.violations.flatMap(v => v.nodes.map(n =>
            `${v.id}: ${v.help}\n  ${n.html}\n  ${[...n.any, ...n.all, ...n.none].map(c => c.message).join('; ')}`))];
        }
        """;

    private static readonly string _axe = new BundledAxeScriptProvider().GetScript();

    /// <summary>Fails with everything that axe objects to, or where the page is wider than its window.</summary>
    public static async Task LooksRightAsync(this IPage page, string what)
    {
        await page.HasNoViolationAsync(what);
        await page.StaysInsideAsync(what);
    }

    /// <summary>Fails with everything that axe objects to.</summary>
    /// <param name="page">The page as it is now.</param>
    /// <param name="what">What it is, for the message.</param>
    /// <param name="rules">Only these; none for all that axe knows.</param>
    public static async Task HasNoViolationAsync(this IPage page, string what, params string[] rules)
    {
        if (!await page.EvaluateAsync<bool>("'axe' in window"))
        {
            await page.EvaluateAsync(_axe);
        }

        string[] found = await page.EvaluateAsync<string[]>(Run, rules);
        Assert.True(found.Length == 1, what + ":\n" + string.Join('\n', found[1..]));
        Assert.True(found[0] != "0", what + ": axe looked at nothing.");
    }

    /// <summary>Fails where the page is wider than its window.</summary>
    public static async Task StaysInsideAsync(this IPage page, string what)
    {
        int over = await page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth");
        Assert.True(over <= 0, $"{what}: {over} pixels over the edge");
    }
}
