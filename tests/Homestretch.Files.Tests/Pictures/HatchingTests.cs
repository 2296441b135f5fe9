using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;

using CsCheck;

using Homestretch.Files.Pictures;

namespace Homestretch.Files.Tests.Pictures;

public partial class HatchingTests
{
    [Fact]
    public void Lines_stay_inside_the_rectangle_and_run_at_45_degrees()
        => Gen.Select(Gen.Double[0, 500], Gen.Double[0, 500], Gen.Double[1, 200], Gen.Double[1, 200]).Sample((x, y, width, height) =>
            Lines(Hatching.Rectangle(x, y, width, height)).All(l =>
                l.X1 >= x - 0.01 && l.X2 <= x + width + 0.01 && l.Y2 >= y - 0.02 && l.Y1 <= y + height + 0.02 && Math.Abs((l.X2 - l.X1) - (l.Y1 - l.Y2)) < 0.03));

    [Fact]
    public void Lines_stay_inside_the_disc()
        => Gen.Select(Gen.Double[20, 400], Gen.Double[20, 400], Gen.Double[3, 20]).Sample((x, y, radius) =>
        {
            List<(double X1, double Y1, double X2, double Y2)> lines = Lines(Hatching.Disc(x, y, radius));
            return lines.Count > 0 && lines.All(l => Math.Abs(double.Hypot(l.X1 - x, l.Y1 - y) - radius) < 0.05 && Math.Abs(double.Hypot(l.X2 - x, l.Y2 - y) - radius) < 0.05);
        });

    private static List<(double X1, double Y1, double X2, double Y2)> Lines(XElement shape)
        =>
        [
            .. shape.WithClass("hs-hatch").SelectMany(p => Line().Matches(p.Attribute("d")!.Value)).Select(m => (V(m, 1), V(m, 2), V(m, 3), V(m, 4))),
        ];

    private static double V(Match match, int group) => double.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture);

    [GeneratedRegex("M([0-9.-]+) ([0-9.-]+)L([0-9.-]+) ([0-9.-]+)")]
    private static partial Regex Line();
}
