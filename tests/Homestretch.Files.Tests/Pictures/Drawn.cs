using System.Globalization;
using System.Xml.Linq;

namespace Homestretch.Files.Tests.Pictures;

/// <summary>Reads a picture back: markup as XML, shapes by class, coordinates as numbers.</summary>
internal static class Drawn
{
    public static XElement Parse(string markup) => XElement.Parse("<root>" + markup + "</root>", LoadOptions.PreserveWhitespace);

    public static IEnumerable<XElement> WithClass(this XElement root, string name)
        => root.Descendants().Where(e => ((string?)e.Attribute("class") ?? string.Empty).Split(' ').Contains(name));

    public static double Number(this XElement element, string attribute)
        => double.Parse(element.Attribute(attribute)!.Value, CultureInfo.InvariantCulture);
}
