using System.Xml.Linq;

using Homestretch.Files.Archives;
using Homestretch.Files.Sheets;

namespace Homestretch.Files.QuizItems.Qti;

/// <summary>Reads content packages of QTI items: a zip with an <c>imsmanifest.xml</c> (1EdTech Content Packaging).</summary>
internal static class QtiPackage
{
    private const string ManifestName = "imsmanifest.xml";

    /// <summary>Whether bytes are a zip that is no spreadsheet. Names stand unpacked in a zip, and every spreadsheet holds a file of the second name.</summary>
    public static bool Is(ReadOnlyMemory<byte> bytes)
        => Unpacking.IsZip(bytes.Span) && (bytes.Span.IndexOf("imsmanifest.xml"u8) >= 0 || bytes.Span.IndexOf("[Content_Types].xml"u8) < 0);

    /// <summary>Reads the items of a package.</summary>
    /// <param name="file">The package's name in messages.</param>
    /// <param name="bytes">The package.</param>
    /// <param name="guess">Finds the topic of each item.</param>
    /// <param name="items">Gets the items, and what was left out and why.</param>
    /// <param name="problems">Gets what is wrong with files of the package.</param>
    public static void Read(string file, ReadOnlyMemory<byte> bytes, TopicGuess guess, ItemCollector items, ProblemList problems)
    {
        if (bytes.Length > FileText.MostBytes)
        {
            problems.Add(file, 1, FileText.TooLarge);
            return;
        }

        if (Unpacking.Read(file, bytes, name => name.EndsWith(".xml", StringComparison.OrdinalIgnoreCase), problems) is not { } files)
        {
            return;
        }

        // Some programs pack the folder and not what is in it.
        string? manifestPath = files.Keys.Where(k => k == ManifestName || k.EndsWith("/" + ManifestName, StringComparison.Ordinal)).MinBy(k => k.Count(c => c == '/'));
        if (manifestPath is null)
        {
            problems.Add(file, 1, $"The archive holds no {ManifestName}, as a QTI content package must; give the items as single XML files, or export a package.");
            return;
        }

        string folder = manifestPath[..^ManifestName.Length];
        if (QtiXml.Read($"{file}/{manifestPath}", files[manifestPath], problems) is not { } manifest)
        {
            return;
        }

        HashSet<string> named = [manifestPath];
        foreach (XElement resource in manifest.Inside("resource"))
        {
            string type = resource.Value("type") ?? "";
            string href = resource.Value("href") ?? resource.Children("file").FirstOrDefault()?.Value("href") ?? "";
            string path = folder + Uri.UnescapeDataString(href).Replace('\\', '/').TrimStart('/');
            foreach (XElement part in resource.Children("file"))
            {
                named.Add(folder + Uri.UnescapeDataString(part.Value("href") ?? "").Replace('\\', '/').TrimStart('/'));
            }

            named.Add(path);
            if (!type.StartsWith("imsqti_", StringComparison.OrdinalIgnoreCase))
            {
                continue;
            }

            if (!files.TryGetValue(path, out byte[]? content))
            {
                problems.Add(file, 1, $"The package's list names '{Cell.Show(href)}', which is not in the package.");
            }
            else if (QtiXml.Read($"{file}/{path}", content, problems) is { } root)
            {
                QtiItem.Read($"{file}/{path}", path, root, Said(resource), guess, items);
            }
        }

        foreach (string other in files.Keys.Where(k => !named.Contains(k)).Order(StringComparer.Ordinal))
        {
            items.Skip($"{file}/{other}", other[(other.LastIndexOf('/') + 1)..], "The package's list does not name this file.");
        }
    }

    // Keywords and classifications of the item's metadata (IEEE LOM), whose words stand in elements of several names.
    private static IEnumerable<string> Said(XElement resource) => resource.Descendants()
        .Where(e => e.Name.LocalName is "keyword" or "taxon")
        .SelectMany(e => e.Descendants().Where(d => !d.HasElements && d.Name.LocalName is "string" or "langstring" or "entry"))
        .Select(e => Cell.Tidy(e.Value));
}
