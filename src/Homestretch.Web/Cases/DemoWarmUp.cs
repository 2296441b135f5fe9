using Homestretch.Web.Assuming;

using NodaTime;

namespace Homestretch.Web.Cases;

/// <summary>Computes each demo case once after the start, so that the first visitor does not wait for code to be compiled.</summary>
/// <param name="library">Finds the cases.</param>
public sealed class DemoWarmUp(CaseLibrary library) : BackgroundService
{
    /// <inheritdoc/>
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        // Lets the server begin to listen first.
        await Task.Yield();
        foreach (CaseFiles files in library.Demo)
        {
            if ((await library.FindAsync(files.Key, stoppingToken))?.Value is { } found)
            {
                ZonedDateTime now = library.Now(found);
                PreparedCase prepared = library.Prepare(found, now.Date);
                WorkbenchView.Build(prepared, now, Assumed.Read(prepared, _ => null));
            }
        }
    }
}
