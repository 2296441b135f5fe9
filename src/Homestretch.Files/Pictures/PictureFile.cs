using System.Globalization;
using System.Xml.Linq;

using static Homestretch.Files.Pictures.Markup;

namespace Homestretch.Files.Pictures;

/// <summary>A picture as a file of its own, which looks the same in any viewer: style and fonts are inside.</summary>
internal static class PictureFile
{
    private static readonly XNamespace _svg = "http://www.w3.org/2000/svg";

    /// <summary>The text of an SVG file.</summary>
    /// <param name="picture">The svg element as it stands in a page.</param>
    /// <param name="width">Width in CSS pixels where the viewer does not choose; the height follows from the view box.</param>
    public static string Svg(XElement picture, double width)
    {
        string[] box = picture.Attribute("viewBox")!.Value.Split(' ');
        XElement file = new(picture);
        file.Add(new XAttribute("width", N(width)), new XAttribute("height", N(width / Number(box[2]) * Number(box[3]))));
        file.AddFirst(
            El("style", Look.EmbeddedFontFaces() + Look.Tokens + Look.Pictures),
            El("rect", ("class", "hs-ground"), ("x", Number(box[0])), ("y", Number(box[1])), ("width", Number(box[2])), ("height", Number(box[3]))));
        foreach (XElement element in file.DescendantsAndSelf())
        {
            element.Name = _svg + element.Name.LocalName;
        }

        return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + Write(file) + "\n";
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
