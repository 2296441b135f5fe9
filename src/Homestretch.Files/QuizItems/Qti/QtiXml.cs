using System.Text;
using System.Xml;
using System.Xml.Linq;

namespace Homestretch.Files.QuizItems.Qti;

/// <summary>Reads XML from people we do not know: no type definitions, no entities, nothing loaded from elsewhere, no endless depth or length.</summary>
internal static class QtiXml
{
    private const int MostCharacters = 4 * 1024 * 1024;
    private const int DeepestElement = 100;

    /// <summary>Whether bytes begin as XML does.</summary>
    public static bool Is(ReadOnlySpan<byte> bytes)
    {
        string start = bytes is [0xFF, 0xFE, ..] ? Encoding.Unicode.GetString(bytes[..Math.Min(400, bytes.Length / 2 * 2)])
            : bytes is [0xFE, 0xFF, ..] ? Encoding.BigEndianUnicode.GetString(bytes[..Math.Min(400, bytes.Length / 2 * 2)])
            : Encoding.UTF8.GetString(bytes[..Math.Min(200, bytes.Length)]);
        return start.TrimStart('\ufeff', ' ', '\t', '\r', '\n').StartsWith('<');
    }

    /// <summary>The root element, or null and a problem.</summary>
    /// <param name="file">The file's name in messages.</param>
    /// <param name="bytes">The file.</param>
    /// <param name="problems">Gets what is wrong.</param>
    public static XElement? Read(string file, ReadOnlyMemory<byte> bytes, ProblemList problems)
    {
        XmlReaderSettings settings = new() { DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null, MaxCharactersInDocument = MostCharacters, IgnoreComments = true, IgnoreProcessingInstructions = true };
        try
        {
            using (MemoryStream stream = new(bytes.ToArray(), writable: false))
            using (XmlReader reader = XmlReader.Create(stream, settings))
            {
                while (reader.Read())
                {
                    if (reader.Depth > DeepestElement)
                    {
                        problems.Add(file, ((IXmlLineInfo)reader).LineNumber, $"Elements lie more than {DeepestElement} deep in each other here; no item needs that.");
                        return null;
                    }
                }
            }

            using MemoryStream again = new(bytes.ToArray(), writable: false);
            using XmlReader whole = XmlReader.Create(again, settings);
            return XDocument.Load(whole, LoadOptions.PreserveWhitespace | LoadOptions.SetLineInfo).Root;
        }
        catch (XmlException e)
        {
            problems.Add(file, e.LineNumber, Explain(bytes, e));
            return null;
        }
    }

    private static string Explain(ReadOnlyMemory<byte> bytes, XmlException e)
    {
        if (bytes.Length > MostCharacters)
        {
            return $"The XML is longer than {MostCharacters / (1024 * 1024)} MB.";
        }

        string text = Encoding.Latin1.GetString(bytes.Span);
        return text.Contains("<!DOCTYPE", StringComparison.OrdinalIgnoreCase)
            ? "The XML holds a document type definition (<!DOCTYPE ...>), which is never read, since it can pull in other files; take it out."
            : $"This is not well-formed XML (near column {Math.Max(1, e.LinePosition)}): a tag is not closed, or a character such as & or < stands bare in the text. Export the item again.";
    }
}
