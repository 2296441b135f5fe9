using Homestretch.Cli.Prose;
using Homestretch.Files;
using Homestretch.Files.Documents;
using Homestretch.Store;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>Reads an export into the store, all or nothing.</summary>
public sealed class ImportCommand(Answer answer) : AsyncCommand<StoreSettings>
{
    /// <inheritdoc/>
    public override async Task<int> ExecuteAsync(CommandContext context, StoreSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        await using FileStream zip = Open(settings.ZipPath);
        CaseStore store = await settings.OpenAsync(mustExist: false, cancellationToken);
        ReadResult<StoreCounts> read = await store.ImportAsync(zip, settings.ZipPath, cancellationToken);
        MovedDocument document = MoveProse.Of(settings.ZipPath, read.Value ?? throw new BadInputException(read.Problems));
        if (settings.Json)
        {
            answer.Output.WriteLine(DocumentJson.Write(document));
        }
        else
        {
            MoveProse.Write(answer.Console, "Read from", document);
        }

        return Shell.Done;
    }

    private static FileStream Open(string path)
    {
        try
        {
            return File.OpenRead(path);
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new BadInputException([new(path, 1, "There is no such file.")]);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            throw new BadInputException([new(path, 1, "The file cannot be read; check its name and that you may open it.")]);
        }
    }
}
