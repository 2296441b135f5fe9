using System.Data.Common;

namespace Homestretch.Store;

/// <summary>Where one person's store and keys are kept.</summary>
/// <param name="Path">An absolute path.</param>
public sealed record DataFolder(string Path)
{
    /// <summary>The database file.</summary>
    public string Database => System.IO.Path.Combine(Path, "homestretch.db");

    /// <summary>The folder of the keys that protect forms.</summary>
    public string Keys => System.IO.Path.Combine(Path, "keys");

    /// <summary>The folder that was asked for, or <c>homestretch</c> in the user's data folder (<c>XDG_DATA_HOME</c> on Linux).</summary>
    /// <exception cref="InvalidOperationException">No folder was asked for and the user has none.</exception>
    public static DataFolder Of(string? asked)
    {
        if (!string.IsNullOrWhiteSpace(asked))
        {
            return new(System.IO.Path.GetFullPath(asked));
        }

        string user = Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify);
        return user.Length == 0
            ? throw new InvalidOperationException("There is no user data folder here; say where to keep cases with --data FOLDER.")
            : new(System.IO.Path.Combine(user, "homestretch"));
    }

    /// <summary>Opens the PostgreSQL database that a connection string names, or without one the file in this folder.</summary>
    /// <exception cref="StoreProblemException">The store cannot be opened; the message says why.</exception>
    public async Task<CaseStore> OpenStoreAsync(string? connection, CancellationToken cancellation = default)
    {
        try
        {
            return string.IsNullOrWhiteSpace(connection)
                ? await CaseStore.OpenFileAsync(Database, cancellation)
                : await CaseStore.OpenServerAsync(connection, cancellation);
        }
        catch (Exception e) when (e is DbException or IOException or UnauthorizedAccessException or ArgumentException)
        {
            string said = string.Join(' ', e.Message.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).TrimEnd('.');
            throw new StoreProblemException(string.IsNullOrWhiteSpace(connection) ? $"{Database}: {said}." : $"The PostgreSQL database cannot be used: {said}.", e);
        }
    }
}
