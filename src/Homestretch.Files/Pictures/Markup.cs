using System.Collections.Frozen;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using System.Xml;
using System.Xml.Linq;

namespace Homestretch.Files.Pictures;

/// <summary>Builds HTML and SVG as a tree, so that every text and attribute is encoded by construction and every element is closed.</summary>
internal static partial class Markup
{
    // Elements written without an end tag: HTML's void elements, and SVG shapes, which HTML parsers close by themselves.
    private static readonly FrozenSet<string> WithoutEndTag =
        new[] { "br", "hr", "meta", "link", "col", "rect", "line", "path", "circle", "polygon", "use", "stop" }.ToFrozenSet();

    /// <summary>An element. A string among <paramref name="content"/> is text, a tuple (name, value) an attribute (left out when null).</summary>
    public static XElement El(string name, params ReadOnlySpan<object?> content)
    {
        XElement element = new(name);
        foreach (object? part in content)
        {
            Add(element, part);
        }

        if (!WithoutEndTag.Contains(name) && element.IsEmpty)
        {
            element.Add(string.Empty);
        }

        return element;
    }

    /// <summary>The tree as text without added white space.</summary>
    public static string Write(XElement element) => element.ToString(SaveOptions.DisableFormatting);

    /// <summary>A coordinate with at most two decimals.</summary>
    public static string N(double value) => Math.Round(value, 2).ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>An id that is safe in markup and in url(#...).</summary>
    public static string Id(string id) => NotInId().Replace(id, "-");

    /// <summary>Text without the characters that HTML and XML forbid, and with figures kept on one line with their unit.</summary>
    public static string Clean(string text)
    {
        StringBuilder? clean = null;
        for (int i = 0; i < text.Length; i++)
        {
            bool pair = i + 1 < text.Length && XmlConvert.IsXmlSurrogatePair(text[i + 1], text[i]);
            if (pair || XmlConvert.IsXmlChar(text[i]))
            {
                clean?.Append(text, i, pair ? 2 : 1);
            }
            else
            {
                clean ??= new StringBuilder(text, 0, i, text.Length);
                clean.Append('\uFFFD');
            }

            i += pair ? 1 : 0;
        }

        return BeforeUnit().Replace(clean?.ToString() ?? text, "\u00A0");
    }

    private static void Add(XElement element, object? part)
    {
        switch (part)
        {
            case null:
                break;
            case string text:
                element.Add(new XText(Clean(text)));
                break;
            case (string name, string value):
                element.Add(new XAttribute(name, Clean(value)));
                break;
            case (string name, double value):
                element.Add(new XAttribute(name, N(value)));
                break;
            case (string name, int value):
                element.Add(new XAttribute(name, value.ToString(CultureInfo.InvariantCulture)));
                break;
            case ValueTuple<string, string?>:
                break;
            case XElement child:
                element.Add(child);
                break;
            case IEnumerable<XElement?> children:
                foreach (XElement? child in children)
                {
                    Add(element, child);
                }

                break;
            default:
                throw new ArgumentException($"Not markup: {part.GetType()}.", nameof(part));
        }
    }

    [GeneratedRegex("[^A-Za-z0-9_-]")]
    private static partial Regex NotInId();

    [GeneratedRegex("(?<=[0-9]) (?=%|h\\b|min\\b)")]
    private static partial Regex BeforeUnit();
}
