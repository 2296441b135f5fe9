using Homestretch.Cli.Prose;
using Homestretch.Files.Documents;
using Homestretch.Store;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>Writes everything in the store as a zip of files.</summary>
public sealed class ExportCommand(Answer answer) : AsyncCommand<StoreSettings>
{
    /// <inheritdoc/>
    public override async Task<int> ExecuteAsync(CommandContext context, StoreSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        CaseStore store = await settings.OpenAsync(mustExist: true, cancellationToken);
        StoreCounts counts = await OutputFile.WriteAsync(settings.ZipPath, target => store.ExportAsync(target, null, cancellationToken));
        MovedDocument document = MoveProse.Of(settings.ZipPath, counts);
        if (settings.Json)
        {
            answer.Output.WriteLine(DocumentJson.Write(document));
        }
        else
        {
            MoveProse.Write(answer.Console, "Written to", document);
        }

        return Shell.Done;
    }
}
