using System.Xml.Linq;

using static Homestretch.Files.Pictures.Markup;

namespace Homestretch.Files.Pictures;

/// <summary>Dots and soft edges of one picture, under ids that start with the picture's own.</summary>
/// <param name="Id">The picture's id.</param>
internal readonly record struct Paint(string Id)
{
    /// <summary>What falls short.</summary>
    public string Dots => $"url(#{Id}-dots)";

    /// <summary>Fades out towards the top, or the right when <paramref name="turned"/>.</summary>
    public string Fade(string hue, bool turned = false) => $"url(#{Id}-{hue}{(turned ? "-turned" : string.Empty)})";

    /// <summary>Dots on paper.</summary>
    public XElement DotsDefinition()
        => El(
            "pattern",
            ("id", Id + "-dots"),
            ("width", 5),
            ("height", 5),
            ("patternUnits", "userSpaceOnUse"),
            El("rect", ("class", "hs-dots-ground"), ("width", 5), ("height", 5)),
            El("circle", ("class", "hs-dots-dot"), ("cx", 1.6), ("cy", 1.6), ("r", 1.0)));

    /// <summary>A gradient of one hue from full to nothing; the hue's class sets its colour.</summary>
    /// <param name="hue">Suffix of the class.</param>
    /// <param name="opacity">At the full end.</param>
    /// <param name="turned">To the right rather than to the top.</param>
    /// <param name="backwards">Full at the top (right) rather than at the bottom (left).</param>
    public XElement FadeDefinition(string hue, double opacity, bool turned, bool backwards = false)
        => El(
            "linearGradient",
            ("id", Id + "-" + hue + (turned ? "-turned" : string.Empty)),
            ("x1", turned && backwards ? 1 : 0),
            ("y1", turned || backwards ? 0 : 1),
            ("x2", turned && !backwards ? 1 : 0),
            ("y2", !turned && backwards ? 1 : 0),
            El("stop", ("class", "hs-stop-" + hue), ("offset", 0), ("stop-opacity", opacity)),
            El("stop", ("class", "hs-stop-" + hue), ("offset", 1), ("stop-opacity", 0)));
}
