using System.Collections.Immutable;
using System.Xml.Linq;

using Homestretch.Core.Forecasting;
using Homestretch.Files.Pictures;

namespace Homestretch.Files.Tests.Pictures;

/// <summary>The score field says with lengths and areas what the forecast says with numbers.</summary>
public class ScoreFieldTests
{
    // Coordinates are written with two decimals.
    private const double Rounding = 0.0101;

    public static TheoryData<string, bool> Pictures => new()
    {
        { nameof(SampleReports.ThreeWeeks), false },
        { nameof(SampleReports.ThreeWeeks), true },
        { nameof(SampleReports.ThreeTopics), false },
        { nameof(SampleReports.ThreeTopics), true },
        { nameof(SampleReports.TwelveTopics), false },
        { nameof(SampleReports.ThirtyTopics), true },
        { nameof(SampleReports.NothingKnown), false },
        { nameof(SampleReports.NoFreeTime), false },
        { nameof(SampleReports.Hostile), true },
    };

    [Theory]
    [MemberData(nameof(Pictures))]
    public void Breadth_is_proportional_to_scored_items_and_filled_area_to_expected_score(string sample, bool turned)
    {
        CandidateReport report = Sample(sample);
        XElement picture = Drawn.Parse(turned ? ScoreField.TurnedSvg(report, "x", 360) : ScoreField.Svg(report, "x", 900));
        ImmutableArray<TopicForecast> topics = report.Forecast.Topics;
        XElement[] now = [.. picture.WithClass("hs-now")];
        XElement scale = picture.WithClass("hs-bar-ground").First();
        bool lying = now.Any(r => r.Number("x") == now[0].Number("x")) && now.All(r => r.Number("x") == now[0].Number("x"));
        double full = scale.Number(lying ? "width" : "height");

        Assert.Equal(topics.Length, now.Length);
        double perItem = now.Sum(r => r.Number(lying ? "height" : "width")) / report.Standing.Exam.ScoredItems;
        for (int i = 0; i < topics.Length; i++)
        {
            double breadth = now[i].Number(lying ? "height" : "width");
            double length = now[i].Number(lying ? "width" : "height");
            Assert.Equal(topics[i].Topic.Items * perItem, breadth, Rounding);
            Assert.Equal(topics[i].ExpectedCorrect, breadth * length / (perItem * full), 0.01);
        }
    }

    [Theory]
    [MemberData(nameof(Pictures))]
    public void Hatched_area_is_what_the_plan_adds(string sample, bool turned)
    {
        CandidateReport report = Sample(sample);
        XElement picture = Drawn.Parse(turned ? ScoreField.TurnedSvg(report, "x", 360) : ScoreField.Svg(report, "x", 900));
        XElement[] columns = [.. picture.WithClass("hs-column")];
        XElement ground = picture.WithClass("hs-bar-ground").First();
        bool lying = columns.Select(c => c.WithClass("hs-now").Single().Number("x")).Distinct().Count() == 1;
        double full = ground.Number(lying ? "width" : "height");
        double perItem = columns.Sum(c => c.WithClass("hs-now").Single().Number(lying ? "height" : "width")) / report.Standing.Exam.ScoredItems;
        double hatched = columns.SelectMany(c => c.WithClass("hs-added")).Sum(r => r.Number("width") * r.Number("height")) / (perItem * full);

        Assert.Equal(report.Plan?.Minutes.Sum(m => m.ScoreGain) ?? 0, hatched, 0.05);
        Assert.Equal(report.Plan?.LeftAlone.Length ?? 0, picture.WithClass("hs-alone").Count());
    }

    [Fact]
    public void The_cut_line_stands_at_the_share_of_items_needed()
    {
        XElement picture = Drawn.Parse(ScoreField.Svg(SampleReports.ThreeWeeks, "x", 900));
        XElement[] grounds = [.. picture.WithClass("hs-bar-ground")];
        XElement[] cuts = [.. picture.WithClass("hs-cut")];
        SectionForecast[] sections = [.. SampleReports.ThreeWeeks.Forecast.Sections];

        Assert.Equal(2, cuts.Length);
        for (int i = 0; i < 2; i++)
        {
            double bottom = grounds[i].Number("y") + grounds[i].Number("height");
            double share = (double)sections[i].Cut!.Value / sections[i].Section.ScoredItems;
            Assert.Equal(bottom - (share * grounds[i].Number("height")), cuts[i].Number("y1"), Rounding);
            Assert.Equal(cuts[i].Number("y1"), cuts[i].Number("y2"));
        }
    }

    [Fact]
    public void A_total_has_one_bar_and_a_total_with_minimums_one_more_than_it_has_sections()
    {
        Assert.Single(Drawn.Parse(ScoreField.Svg(SampleReports.ThreeTopics, "x", 900)).WithClass("hs-score-bar"));
        Assert.Equal(3, Drawn.Parse(ScoreField.Svg(SampleReports.TwelveTopics, "x", 900)).WithClass("hs-score-bar").Count());
    }

    [Fact]
    public void Upright_labels_keep_apart_and_inside_the_picture()
    {
        foreach (int width in new[] { 700, 900 })
        {
            XElement picture = Drawn.Parse(ScoreField.Svg(SampleReports.ThreeWeeks, "x", width));
            Box[] boxes = [.. picture.WithClass("hs-name").Where(e => e.Name == "text" && e.Elements("tspan").Any()).SelectMany(Lines)];

            Assert.True(boxes.Length > 8);
            Assert.All(boxes, b => Assert.InRange(b.Left, 0, width - (b.Right - b.Left)));
            for (int i = 0; i < boxes.Length; i++)
            {
                Assert.DoesNotContain(boxes[(i + 1)..], b => b.Left < boxes[i].Right && boxes[i].Left < b.Right && Math.Abs(b.Baseline - boxes[i].Baseline) < 11);
            }
        }
    }

    [Fact]
    public void Every_name_is_written_whole_however_many_topics_there_are()
    {
        foreach (CandidateReport report in SampleReports.All)
        {
            foreach (string markup in new[] { ScoreField.Svg(report, "x", 900), ScoreField.Svg(report, "x", 700), ScoreField.TurnedSvg(report, "x", 360) })
            {
                XElement picture = Drawn.Parse(markup);
                string[] names = [.. picture.WithClass("hs-name").Select(e => e.Value.Replace("- ", "-", StringComparison.Ordinal))];
                Assert.All(report.Standing.Topics, t => Assert.Contains(names, n => Squeezed(n) == Squeezed(t.Topic.Name)));
            }
        }
    }

    // A word too long for any line is broken with a hyphen; compare what is left without spaces and hyphens.
    private static string Squeezed(string text) => string.Concat(text.Where(c => !char.IsWhiteSpace(c) && c is not '-'));

    private static IEnumerable<Box> Lines(XElement text)
    {
        double y = text.Number("y");
        foreach (XElement line in text.Elements("tspan"))
        {
            y += line.Attribute("dy") is null ? 0 : line.Number("dy");
            double half = Lettering.Width(line.Value.Trim(), 13) / 2;
            yield return new Box(text.Number("x") - half, text.Number("x") + half, y);
        }
    }

    private static CandidateReport Sample(string name) => (CandidateReport)typeof(SampleReports).GetProperty(name)!.GetValue(null)!;

    private sealed record Box(double Left, double Right, double Baseline);
}
