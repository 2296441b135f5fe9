using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;

using Homestretch.Core.Forecasting;
using Homestretch.Files.Pictures;

namespace Homestretch.Files.Tests.Pictures;

public partial class ScoreDistributionTests
{
    [Fact]
    public void Areas_share_as_the_chances_do_and_the_cut_line_parts_them()
    {
        foreach (SectionForecast section in SampleReports.ThreeWeeks.Forecast.Sections)
        {
            XElement picture = Drawn.Parse(ScoreDistribution.Svg("Section", section.Distribution, section.Cut!.Value, "x"));
            (double shortArea, double shortLeft, double shortRight) = Area(picture.WithClass("hs-short").Single());
            (double reachedArea, double reachedLeft, _) = Area(picture.WithClass("hs-reached").Single());
            double cut = picture.WithClass("hs-cut").Single().Number("x1");

            Assert.Equal(section.PassChance!.Value, reachedArea / (shortArea + reachedArea), 0.005);
            Assert.True(shortLeft < shortRight);
            Assert.Equal(cut, shortRight, 0.02);
            Assert.Equal(cut, reachedLeft, 0.02);
        }
    }

    [Fact]
    public void The_rule_decides_which_pictures_there_are()
    {
        Assert.Equal(2, Drawn.Parse(ScoreDistribution.Html(SampleReports.ThreeWeeks.Forecast)).Descendants("figure").Count());
        Assert.Single(Drawn.Parse(ScoreDistribution.Html(SampleReports.ThreeTopics.Forecast)).Descendants("figure"));
        Assert.Equal(3, Drawn.Parse(ScoreDistribution.Html(SampleReports.TwelveTopics.Forecast)).Descendants("figure").Count());
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(10)]
    [InlineData(11)]
    public void A_cut_at_either_end_or_out_of_reach_still_has_its_line_and_words(int cut)
    {
        ImmutableArray<double> even = [.. Enumerable.Repeat(1.0 / 11, 11)];
        XElement picture = Drawn.Parse(ScoreDistribution.Svg("Ten items", even, cut, "x"));
        double line = picture.WithClass("hs-cut").Single().Number("x1");
        double width = 380;

        Assert.InRange(line, 0, width);
        Assert.Equal(cut > 0 ? 1 : 0, picture.WithClass("hs-short").Count());
        Assert.Equal(cut <= 10 ? 1 : 0, picture.WithClass("hs-reached").Count());
        Assert.Contains(picture.Descendants("text"), t => t.Value.Replace('\u00A0', ' ') == "reached: " + Figures.Percent((11.0 - cut) / 11));
    }

    [Fact]
    public void A_certain_count_is_a_single_bar()
    {
        ImmutableArray<double> certain = [0, 0, 0, 1, 0];
        XElement picture = Drawn.Parse(ScoreDistribution.Svg("Four items", certain, 2, "x"));
        (double reached, _, _) = Area(picture.WithClass("hs-reached").Single());

        Assert.True(reached > 0);
        Assert.All(picture.WithClass("hs-short"), p => Assert.Equal(0, Area(p).Area, 1e-9));
    }

    /// <summary>Area under a stepped path (M, V, H and Z only), its left and right end.</summary>
    private static (double Area, double Left, double Right) Area(XElement path)
    {
        MatchCollection steps = Step().Matches(path.Attribute("d")!.Value);
        double x = Value(steps[0].Groups[2]);
        double left = x;
        double bottom = Value(steps[0].Groups[3]);
        double y = bottom;
        double area = 0;
        foreach (Match step in steps.Skip(1))
        {
            double to = step.Groups[2].Length == 0 ? 0 : Value(step.Groups[2]);
            if (step.Groups[1].Value == "V")
            {
                y = to;
            }
            else if (step.Groups[1].Value == "H")
            {
                area += (to - x) * (bottom - y);
                x = to;
            }
        }

        return (area, left, x);

        static double Value(Group group) => double.Parse(group.Value, CultureInfo.InvariantCulture);
    }

    [GeneratedRegex(@"([MVHZ])(-?[0-9.]+)?(?: (-?[0-9.]+))?")]
    private static partial Regex Step();
}
