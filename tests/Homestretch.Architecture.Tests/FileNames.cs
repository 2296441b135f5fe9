using System.Text.RegularExpressions;

namespace Homestretch.Architecture.Tests;

/// <summary>One public type per file, and the file is named after it.</summary>
internal static partial class FileNames
{
    /// <summary>What is wrong with a file. Namespaces are file-scoped, so a type of the file starts at the beginning of a line.</summary>
    public static IEnumerable<string> Violations(string path, string text)
    {
        string[] types = [.. PublicType().Matches(text).Select(m => m.Groups["name"].Value).Distinct()];
        if (types.Length > 1)
        {
            yield return $"{path} holds {string.Join(" and ", types)}";
        }

        // A part of a partial type may name its subject after a dot.
        string file = Path.GetFileName(path).Split('.')[0];
        foreach (string type in types.Where(t => t != file))
        {
            yield return $"{path} holds {type}";
        }

        if (BlockNamespace().IsMatch(text))
        {
            yield return $"{path} has a namespace in braces";
        }
    }

    [GeneratedRegex(@"^public (?:(?:abstract|sealed|static|partial|readonly|ref|unsafe) )*(?:class|interface|enum|record struct|record class|record|struct) (?<name>\w+)", RegexOptions.Multiline)]
    private static partial Regex PublicType();

    [GeneratedRegex(@"^namespace [\w.]+\s*\{", RegexOptions.Multiline)]
    private static partial Regex BlockNamespace();
}
