using System.Xml.Linq;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Standing;

using static Homestretch.Files.Pictures.Markup;

namespace Homestretch.Files.Pictures;

/// <summary>How a standing is marked everywhere: a hue, a shape and a word, never the hue alone.</summary>
internal static class BandMark
{
    /// <summary>What the level means, in percent of items answered correctly.</summary>
    public static string Meaning(Band band, BandEdges edges) => band switch
    {
        Band.Weak => "below " + Figures.Percent(edges.WeakBelow),
        Band.Borderline => "between",
        _ => "from " + Figures.Percent(edges.StrongFrom),
    };

    /// <summary>The shape, 10 units across, centred: a triangle, a diamond or a disc.</summary>
    public static XElement Shape(Band band, double x, double y) => band switch
    {
        Band.Weak => El("path", ("class", "hs-mark hs-mark-weak"), ("d", $"M{N(x - 5.5)} {N(y - 4.5)}h11l-5.5 9.5z")),
        Band.Borderline => El("path", ("class", "hs-mark hs-mark-borderline"), ("d", $"M{N(x)} {N(y - 5.8)}l5.8 5.8-5.8 5.8-5.8-5.8z")),
        _ => El("circle", ("class", "hs-mark hs-mark-strong"), ("cx", x), ("cy", y), ("r", 5.0)),
    };

    /// <summary>The shape as a picture inside a line of text; the word stands beside it, so it is hidden from screen readers.</summary>
    public static XElement Inline(Band band)
        => El("svg", ("class", "hs-inline-mark"), ("viewBox", "0 0 14 14"), ("width", 14), ("height", 14), ("aria-hidden", "true"), ("focusable", "false"), Shape(band, 7, 7));
}
