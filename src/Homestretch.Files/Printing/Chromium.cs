using System.Collections.Immutable;

namespace Homestretch.Files.Printing;

/// <summary>Finds a browser of the Chromium family on this computer.</summary>
public static class Chromium
{
    /// <summary>Environment variable that names the program to take.</summary>
    public const string Variable = "HOMESTRETCH_CHROMIUM";

    /// <summary>What to do where there is none.</summary>
    public const string Advice =
        "PDFs are made with Chromium, and there is none on this computer. Install Chromium, Google Chrome or Microsoft Edge (on Debian: apt install chromium), or name one in HOMESTRETCH_CHROMIUM. "
        + "The handout itself needs nothing: open it in any browser and print it, or save it as a PDF from there.";

    private static readonly string[] _applications = ["Chromium", "Google Chrome", "Microsoft Edge"];
    private static readonly string[] _programFolders = ["ProgramFiles", "ProgramFiles(x86)", "LocalAppData"];
    private static readonly string[] _programs = [@"Chromium\Application\chrome.exe", @"Google\Chrome\Application\chrome.exe", @"Microsoft\Edge\Application\msedge.exe"];

    /// <summary>Names that are looked for on the PATH, in this order.</summary>
    public static ImmutableArray<string> Names { get; } = ["chromium", "chromium-browser", "google-chrome", "microsoft-edge"];

    /// <summary>The path of the program, or null where there is none.</summary>
    /// <param name="variable">Gives an environment variable, or null where it is not set; the process's own where left out.</param>
    /// <exception cref="PrintingException"><see cref="Variable"/> names a file that is not there.</exception>
    public static string? Find(Func<string, string?>? variable = null)
    {
        variable ??= Environment.GetEnvironmentVariable;
        if (variable(Variable) is { Length: > 0 } named)
        {
            return File.Exists(named) ? named : throw new PrintingException($"{Variable} names '{named}', and there is no such file. Give the full path of Chromium, Google Chrome or Microsoft Edge, or leave it unset.");
        }

        string[] folders = (variable("PATH") ?? "").Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries);
        IEnumerable<string> onPath = Names.SelectMany(name => folders.Select(folder => Path.Combine(folder, OperatingSystem.IsWindows() ? name + ".exe" : name)));
        return onPath.Concat(UsualPlaces(variable)).FirstOrDefault(File.Exists);
    }

    private static IEnumerable<string> UsualPlaces(Func<string, string?> variable)
    {
        if (OperatingSystem.IsMacOS())
        {
            return _applications.Select(name => $"/Applications/{name}.app/Contents/MacOS/{name}");
        }

        return OperatingSystem.IsWindows()
            ? from root in _programFolders.Select(variable).OfType<string>()
              from place in _programs
              select Path.Combine(root, place)
            : [];
    }
}
