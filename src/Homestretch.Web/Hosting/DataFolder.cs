namespace Homestretch.Web.Hosting;

/// <summary>Where uploaded cases and keys are kept.</summary>
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
            ? throw new InvalidOperationException("There is no user data folder here; say where to keep cases with --data PATH.")
            : new(System.IO.Path.Combine(user, "homestretch"));
    }
}
