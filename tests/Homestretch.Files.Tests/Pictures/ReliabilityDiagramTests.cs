using System.Globalization;
using System.Text;
using System.Xml.Linq;

using Homestretch.Files.Pictures;

namespace Homestretch.Files.Tests.Pictures;

public class ReliabilityDiagramTests
{
    private static readonly XNamespace _svg = "http://www.w3.org/2000/svg";

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Points_lie_where_forecast_and_share_say_and_intervals_hold_them(bool certain)
    {
        CalibrationReport report = certain ? SampleCalibrations.AllPassed : SampleCalibrations.Room;
        XElement picture = Drawn.Parse(ReliabilityDiagram.Svg(report));
        XElement diagonal = picture.WithClass("hs-as-forecast").Single();
        (double left, double bottom) = (diagonal.Number("x1"), diagonal.Number("y1"));
        double size = diagonal.Number("x2") - left;
        Assert.Equal(size, bottom - diagonal.Number("y2"), 0.01);
        XElement[] tenths = [.. picture.WithClass("hs-tenth")];
        Assert.Equal(report.Table.Bins.Length, tenths.Length);
        Assert.All(tenths.Zip(report.Table.Bins), t =>
        {
            XElement point = t.First.WithClass("hs-point").Single();
            XElement line = t.First.WithClass("hs-interval").First();
            Assert.Equal(t.Second.MeanForecast, (point.Number("cx") - left) / size, 1e-4);
            Assert.Equal(t.Second.Observed, (bottom - point.Number("cy")) / size, 1e-4);
            Assert.Equal(t.Second.Interval.Low, (bottom - line.Number("y1")) / size, 1e-4);
            Assert.Equal(t.Second.Interval.High, (bottom - line.Number("y2")) / size, 1e-4);
            Assert.InRange(point.Number("cy"), line.Number("y2") - 0.02, line.Number("y1") + 0.02);
        });
    }

    [Fact]
    public void Bars_are_as_high_as_their_counts_and_say_them()
    {
        CalibrationReport report = SampleCalibrations.Room;
        XElement picture = Drawn.Parse(ReliabilityDiagram.Svg(report));
        XElement[] bars = [.. picture.WithClass("hs-count")];
        double unit = bars.Zip(report.Table.Bins).Max(b => b.First.Number("height") / b.Second.Count);
        Assert.All(bars.Zip(report.Table.Bins), b => Assert.Equal(b.Second.Count * unit, b.First.Number("height"), 0.02));
        Assert.Equal(
            report.Table.Bins.Select(b => b.Count.ToString(CultureInfo.InvariantCulture)),
            bars.Select(b => b.Parent!.Elements("text").Single().Value));
    }

    [Fact]
    public void Everything_drawn_lies_inside_the_picture()
    {
        foreach (CalibrationReport report in SampleCalibrations.All)
        {
            XElement picture = Drawn.Parse(ReliabilityDiagram.Svg(report)).Descendants("svg").Single();
            double[] box = [.. picture.Attribute("viewBox")!.Value.Split(' ').Select(n => double.Parse(n, CultureInfo.InvariantCulture))];
            foreach (XElement text in picture.Descendants("text").Where(t => t.Attribute("transform") is null))
            {
                double width = Lettering.Width(text.Value, (string?)text.Attribute("class") == "hs-strong" ? 14 : 12, (string?)text.Attribute("class") == "hs-strong");
                double left = text.Number("x") - ((string?)text.Attribute("text-anchor") switch { "middle" => width / 2, "end" => width, _ => 0 });
                Assert.True(left >= -0.5 && left + width <= box[2] + 0.5, $"'{text.Value}' from {left} to {left + width}");
                Assert.InRange(text.Number("y"), 8, box[3]);
            }

            Assert.All(picture.WithClass("hs-point"), p => Assert.InRange(p.Number("cx") + p.Number("r"), 0, box[2]));
        }
    }

    [Fact]
    public void The_text_alternative_says_the_finding_and_every_tenth()
    {
        CalibrationReport report = SampleCalibrations.Room;
        string words = Drawn.Parse(ReliabilityDiagram.Svg(report)).Descendants("desc").Single().Value.Replace('\u00A0', ' ');
        Assert.StartsWith(report.Findings[0], words, StringComparison.Ordinal);
        Assert.All(report.Table.Bins, b => Assert.Contains(
            $"{Figures.Plural(b.Count, "forecast")} of {b.From * 100:0} to {b.To * 100:0} %, {Figures.Percent(b.MeanForecast)} on average: {Figures.Share(b.Observed)} passed", words, StringComparison.Ordinal));
    }

    [Fact]
    public void The_file_is_svg_that_needs_nothing_else()
    {
        string text = ReliabilityDiagram.File(SampleCalibrations.Hostile);
        using MemoryStream bytes = new(Encoding.UTF8.GetBytes(text));
        XElement file = XDocument.Load(bytes).Root!;
        Assert.Equal(_svg + "svg", file.Name);
        Assert.All(file.Descendants(), e => Assert.Equal(_svg, e.Name.Namespace));
        Assert.Single(file.Elements(_svg + "style"));
        Assert.Contains("--accent", file.Element(_svg + "style")!.Value, StringComparison.Ordinal);
        Assert.DoesNotContain(file.Descendants(), e => e.Name.LocalName is "script" or "image" or "a");
        Assert.DoesNotContain("http", text.Replace(_svg.NamespaceName, "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.True(file.Number("width") > 0 && file.Number("height") > 0);
    }
}
