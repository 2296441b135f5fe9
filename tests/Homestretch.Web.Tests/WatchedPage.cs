using System.Collections.Concurrent;

using Microsoft.Playwright;

namespace Homestretch.Web.Tests;

/// <summary>A browser page that notes everything its console complains about, script errors and policy violations included.</summary>
public sealed class WatchedPage : IAsyncDisposable
{
    private readonly IBrowserContext _context;
    private readonly ConcurrentQueue<string> _complaints = new();

    public WatchedPage(IBrowserContext context, IPage page)
    {
        _context = context;
        Page = page;
        page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning")
            {
                _complaints.Enqueue($"{message.Type}: {message.Text}");
            }
        };
        page.PageError += (_, error) => _complaints.Enqueue("script: " + error);
        page.Dialog += async (_, dialog) =>
        {
            _complaints.Enqueue("dialog: " + dialog.Message);
            await dialog.DismissAsync();
        };
    }

    public IPage Page { get; }

    /// <summary>What the console complained about.</summary>
    public IReadOnlyCollection<string> Complaints => _complaints;

    public async ValueTask DisposeAsync() => await _context.DisposeAsync();
}
