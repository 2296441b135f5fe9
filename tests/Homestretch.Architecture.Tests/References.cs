using System.Reflection;
using System.Xml.Linq;

namespace Homestretch.Architecture.Tests;

/// <summary>What assemblies and projects may lean on.</summary>
internal static class References
{
    private static readonly Dictionary<string, string[]> _allowed = new()
    {
        ["Homestretch.Core"] = [],
        ["Homestretch.Files"] = ["Homestretch.Core"],
        ["Homestretch.Store"] = ["Homestretch.Core", "Homestretch.Files"],
        ["Homestretch.Web"] = ["Homestretch.Core", "Homestretch.Files", "Homestretch.Store"],
        ["Homestretch.Cli"] = ["Homestretch.Core", "Homestretch.Files", "Homestretch.Store"],
    };

    /// <summary>Assemblies beyond those the model may use.</summary>
    public static IEnumerable<string> BeyondTheModels(Assembly assembly) => assembly.GetReferencedAssemblies()
        .Select(a => a.Name!)
        .Where(name => name is not ("MathNet.Numerics" or "NodaTime") && !name.StartsWith("System.", StringComparison.Ordinal));

    /// <summary>Project references beyond the table of the structure.</summary>
    /// <param name="project">The project's name.</param>
    /// <param name="xml">Its project file.</param>
    public static IEnumerable<string> BeyondTheTable(string project, string xml)
    {
        string[]? allowed = _allowed.GetValueOrDefault(project);
        return XDocument.Parse(xml).Descendants("ProjectReference")
            .Select(r => Path.GetFileNameWithoutExtension(r.Attribute("Include")!.Value.Replace('\\', '/')))
            .Where(name => allowed is null || !allowed.Contains(name))
            .Select(name => $"{project} refers to {name}");
    }

    /// <summary>Whether the table names a project.</summary>
    public static bool Knows(string project) => _allowed.ContainsKey(project);
}
