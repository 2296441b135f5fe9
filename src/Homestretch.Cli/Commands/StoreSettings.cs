using System.ComponentModel;

using Homestretch.Store;

using Spectre.Console;
using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>What the commands about the store take: a zip, and where the store is.</summary>
public sealed class StoreSettings : CommandSettings
{
    /// <summary>Path of the zip.</summary>
    [CommandArgument(0, "<FILE.zip>")]
    [Description("The zip of files (docs/export.md)")]
    public string ZipPath { get; init; } = "";

    /// <summary>The data folder.</summary>
    [CommandOption("--data <FOLDER>")]
    [Description("Where the store is kept; without it 'homestretch' in your data folder, as for the browser pages")]
    public string? Data { get; init; }

    /// <summary>A PostgreSQL connection string.</summary>
    [CommandOption("--database <CONNECTION>")]
    [Description("Connection string of a PostgreSQL database, in place of the file in the data folder; also read from HOMESTRETCH_DATABASE")]
    public string? Database { get; init; }

    /// <summary>Whether to print one JSON document.</summary>
    [CommandOption("--json")]
    [Description("Print one JSON document and nothing else (docs/json.md)")]
    public bool Json { get; init; }

    /// <inheritdoc/>
    public override ValidationResult Validate()
        => string.IsNullOrWhiteSpace(ZipPath) ? ValidationResult.Error("A file name is empty.") : ValidationResult.Success();

    /// <summary>Opens the store.</summary>
    /// <param name="mustExist">Whether a store that is not there yet is a problem.</param>
    /// <exception cref="BadInputException">It cannot be opened.</exception>
    internal async Task<CaseStore> OpenAsync(bool mustExist, CancellationToken cancellation)
    {
        string? connection = Database ?? Environment.GetEnvironmentVariable("HOMESTRETCH_DATABASE");
        try
        {
            DataFolder folder = DataFolder.Of(Data);
            return mustExist && string.IsNullOrWhiteSpace(connection) && !File.Exists(folder.Database)
                ? throw new BadInputException([new(folder.Database, 1, "There is no store here. Say where it is with --data FOLDER.")])
                : await folder.OpenStoreAsync(connection, cancellation);
        }
        catch (StoreProblemException e)
        {
            throw new BadInputException([new("store", 1, e.Message)]);
        }
        catch (InvalidOperationException e)
        {
            throw new UsageException(e.Message);
        }
    }
}
