namespace Homestretch.Files.Tests;

/// <summary>Finds the repository's own files from wherever the tests run.</summary>
internal static class Repository
{
    public static string Root { get; } = Find();

    public static string Demo(string file) => Path.Combine(Root, "examples", "museum-registrar", file);

    public static string Cases(string kind) => Path.Combine(Root, "tests", "Homestretch.Files.Tests", "cases", kind);

    private static string Find()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Homestretch.slnx")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName ?? throw new DirectoryNotFoundException("The tests must run inside the repository.");
    }
}
