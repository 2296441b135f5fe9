namespace Homestretch.Architecture.Tests;

/// <summary>The sources these tests judge.</summary>
internal static class Checkout
{
    /// <summary>The folder with the solution.</summary>
    public static string Root { get; } = Find();

    /// <summary>C# files under src, without what the build and the migrations tool make.</summary>
    public static IEnumerable<string> Sources => Directory.EnumerateFiles(Path.Combine(Root, "src"), "*.cs", SearchOption.AllDirectories)
        .Where(f => !Path.GetRelativePath(Root, f).Split(Path.DirectorySeparatorChar).Any(part => part is "bin" or "obj" or "Migrations"));

    private static string Find()
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Homestretch.slnx")))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException("These tests run inside a checkout.");
    }
}
