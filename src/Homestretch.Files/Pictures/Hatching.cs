using System.Globalization;
using System.Text;
using System.Xml.Linq;

using static Homestretch.Files.Pictures.Markup;

namespace Homestretch.Files.Pictures;

/// <summary>Diagonal lines over a shape. They are lines, not an SVG pattern: browsers print patterns as coarse bitmaps.</summary>
internal static class Hatching
{
    // Distance between lines along the x axis; about 4.2 across.
    private const double Step = 6;

    /// <summary>An outlined, hatched rectangle.</summary>
    public static XElement Rectangle(double x, double y, double width, double height)
    {
        StringBuilder lines = new();

        // Lines x + y = c, at the same c everywhere, so that neighbouring hatches run on into each other.
        for (double c = Math.Ceiling((x + y) / Step) * Step; c < x + width + y + height; c += Step)
        {
            double x1 = Math.Max(x, c - y - height);
            double x2 = Math.Min(x + width, c - y);
            if (x2 - x1 > 0.05)
            {
                lines.Append(CultureInfo.InvariantCulture, $"M{N(x1)} {N(c - x1)}L{N(x2)} {N(c - x2)}");
            }
        }

        return El(
            "g",
            El("rect", ("class", "hs-added"), ("x", x), ("y", y), ("width", width), ("height", height)),
            lines.Length == 0 ? null : El("path", ("class", "hs-hatch"), ("d", lines.ToString())));
    }

    /// <summary>An outlined, hatched disc.</summary>
    public static XElement Disc(double cx, double cy, double radius)
    {
        StringBuilder lines = new();
        double reach = radius * Math.Sqrt(2);
        for (double c = Math.Ceiling((cx + cy - reach) / Step) * Step; c < cx + cy + reach; c += Step)
        {
            // The chord of x + y = c: its middle lies (c - cx - cy) / 2 from the centre in both x and y.
            double middle = (c - cx - cy) / 2;
            double half = Math.Sqrt(Math.Max(0, (radius * radius / 2) - (middle * middle)));
            if (half > 0.5)
            {
                lines.Append(CultureInfo.InvariantCulture, $"M{N(cx + middle - half)} {N(cy + middle + half)}L{N(cx + middle + half)} {N(cy + middle - half)}");
            }
        }

        return El(
            "g",
            El("circle", ("class", "hs-ten hs-ten-added"), ("cx", cx), ("cy", cy), ("r", radius)),
            El("path", ("class", "hs-hatch"), ("d", lines.ToString())));
    }
}
