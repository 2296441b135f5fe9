using System.Text;
using System.Xml.Linq;

namespace Homestretch.Files.QuizItems.Qti;

/// <summary>One set of names for QTI 2 and 3: those of QTI 3 without their <c>qti-</c>. QTI 2 writes the same words as <c>choiceInteraction</c> and <c>maxChoices</c>.</summary>
internal static class QtiNames
{
    /// <summary>The name of an element.</summary>
    public static string Of(XElement element)
    {
        string name = element.Name.LocalName;
        return name.StartsWith("qti-", StringComparison.Ordinal) ? name[4..] : Hyphened(name);
    }

    /// <summary>Whether an element has a name.</summary>
    public static bool Is(this XElement element, string name) => Of(element) == name;

    /// <summary>Elements of a name anywhere inside.</summary>
    public static IEnumerable<XElement> Inside(this XElement element, string name) => element.Descendants().Where(e => e.Is(name));

    /// <summary>Elements of a name directly inside.</summary>
    public static IEnumerable<XElement> Children(this XElement element, string name) => element.Elements().Where(e => e.Is(name));

    /// <summary>The value of an attribute, trimmed; null where there is none.</summary>
    public static string? Value(this XElement element, string name) => element.Attributes().FirstOrDefault(a => Hyphened(a.Name.LocalName) == name)?.Value.Trim();

    private static string Hyphened(string name)
    {
        StringBuilder hyphened = new(name.Length + 4);
        foreach (char c in name)
        {
            if (char.IsAsciiLetterUpper(c) && hyphened.Length > 0)
            {
                hyphened.Append('-');
            }

            hyphened.Append(char.ToLowerInvariant(c));
        }

        return hyphened.ToString();
    }
}
