namespace Homestretch.Files.Tests;

/// <summary>Finds files of the repository that tests read.</summary>
public static class TestFiles
{
    public static string Root { get; } = FindRoot();

    public static string Cases(string folder) => Path.Combine(Root, "tests", "Homestretch.Files.Tests", "cases", folder);

    /// <summary>Names of the CSV files of a folder of cases, without their ending.</summary>
    public static TheoryData<string> CaseNames(string folder) =>
        [.. Directory.GetFiles(Cases(folder), "*.csv").Select(f => Path.GetFileNameWithoutExtension(f)).Order(StringComparer.Ordinal)];

    public static string Demo(string file) => Path.Combine(Root, "examples", "museum-registrar", file);

    private static string FindRoot()
    {
        for (DirectoryInfo? at = new(AppContext.BaseDirectory); at is not null; at = at.Parent)
        {
            if (File.Exists(Path.Combine(at.FullName, "Homestretch.slnx")))
            {
                return at.FullName;
            }
        }

        throw new DirectoryNotFoundException("The tests run from a checkout of the repository.");
    }
}
