using System.Text.RegularExpressions;
using System.Xml.Linq;

using Homestretch.Files.Pictures;

namespace Homestretch.Files.Tests.Pictures;

/// <summary>What holds for every picture: well-formed, encoded, labelled, and free of anything a strict content policy would refuse.</summary>
public partial class MarkupTests
{
    public static TheoryData<string, string> Everything
    {
        get
        {
            TheoryData<string, string> all = [];
            foreach (CandidateReport report in SampleReports.All)
            {
                string who = report.Candidate[..3];
                all.Add(who + ": score field", ScoreField.Html(report));
                all.Add(who + ": score field on paper", ScoreField.PrintHtml(report));
                all.Add(who + ": standing grid", StandingGrid.Html(report));
                all.Add(who + ": distribution", ScoreDistribution.Html(report.Forecast));
                all.Add(who + ": pass chance", PassChance.Html(report));
                all.Add(who + ": worth", WorthBars.Html(report));
                if (report.Plan is { } plan)
                {
                    all.Add(who + ": calendar", WeekRows.Html(plan, SampleReports.Slots(report, 130), plan.From.Date));
                    all.Add(who + ": calendar on paper", WeekRows.PrintHtml(plan));
                }
            }

            foreach (CalibrationReport report in SampleCalibrations.All)
            {
                all.Add($"{report.Findings[0]}: reliability", ReliabilityDiagram.Svg(report));
            }

            return all;
        }
    }

    [Theory]
    [MemberData(nameof(Everything))]
    public void Is_well_formed_with_unique_ids_and_no_inline_script_style_or_colour(string name, string markup)
    {
        XElement root = Drawn.Parse(markup);
        string[] ids = [.. root.Descendants().Attributes("id").Select(a => a.Value)];

        Assert.True(ids.Distinct().Count() == ids.Length, name);
        Assert.DoesNotContain(root.Descendants(), e => e.Name.LocalName is "script" or "style" or "img" or "a");
        Assert.DoesNotContain(root.Descendants().Attributes(), a => a.Name.LocalName.StartsWith("on", StringComparison.Ordinal) || a.Name == "style");
        Assert.DoesNotContain(
            root.Descendants().Attributes().Where(a => a.Name.LocalName is "fill" or "stroke" or "stop-color"),
            a => a.Value != "none" && !a.Value.StartsWith("url(#", StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Everything))]
    public void Every_reference_leads_somewhere_and_every_picture_has_a_title_and_a_description(string name, string markup)
    {
        XElement root = Drawn.Parse(markup);
        HashSet<string> ids = [.. root.Descendants().Attributes("id").Select(a => a.Value)];

        Assert.All(Reference().Matches(markup).Select(m => m.Groups[1].Value), id => Assert.Contains(id, ids));
        foreach (XElement picture in root.Descendants("svg").Where(s => (string?)s.Attribute("aria-hidden") != "true"))
        {
            Assert.Equal("img", (string?)picture.Attribute("role"));
            Assert.All(picture.Attribute("aria-labelledby")!.Value.Split(' '), id => Assert.Contains(id, ids));
            Assert.NotEmpty(picture.Element("title")!.Value);
            Assert.True(picture.Element("desc")!.Value.Length > 20, name);
        }

        Assert.All(root.Descendants("table"), t => Assert.NotEmpty(t.Descendants("th")));
        Assert.All(root.Descendants("th"), th => Assert.NotNull(th.Attribute("scope")));
    }

    /// <summary>An HTML parser takes <c>&lt;td/&gt;</c> for a start tag, so only elements without an end tag may be written so.</summary>
    [Theory]
    [MemberData(nameof(Everything))]
    public void No_html_element_is_self_closed(string name, string markup)
    {
        string[] closed = [.. SelfClosed().Matches(markup).Select(m => m.Groups[1].Value).Distinct()];
        Assert.True(closed.All(c => c is "br" or "hr" or "rect" or "line" or "path" or "circle" or "stop"), $"{name}: {string.Join(", ", closed)}");
    }

    [Theory]
    [MemberData(nameof(Everything))]
    public void Hostile_names_stay_text(string name, string markup)
    {
        Assert.False(markup.Contains("<script", StringComparison.OrdinalIgnoreCase), name);
        Assert.False(markup.Contains("<img", StringComparison.OrdinalIgnoreCase), name);
        if (name.EndsWith("standing grid", StringComparison.Ordinal) && name.StartsWith("<sc", StringComparison.Ordinal))
        {
            Assert.Contains("&lt;script&gt;alert(1)&lt;/script&gt;", markup, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Two_pictures_on_a_page_share_no_id()
    {
        CandidateReport report = SampleReports.ThreeWeeks;
        string page = ScoreField.Html(report, "a") + ScoreField.Html(report, "b") + ScoreDistribution.Html(report.Forecast, "c") + ScoreDistribution.Html(report.Forecast, "d")
            + PassChance.Html(report, "e") + PassChance.Html(report, "f");
        string[] ids = [.. Drawn.Parse(page).Descendants().Attributes("id").Select(a => a.Value)];

        Assert.NotEmpty(ids);
        Assert.Equal(ids.Length, ids.Distinct().Count());
    }

    [Fact]
    public void Nothing_is_told_by_colour_alone()
    {
        CandidateReport report = SampleReports.TwelveTopics;
        XElement grid = Drawn.Parse(StandingGrid.Html(report));
        XElement field = Drawn.Parse(ScoreField.Svg(report, "x", 900));

        // Standing: a word in the grid's rows, a shape at each label of the field; the key says which shape is which word.
        Assert.Equal(["weak", "borderline", "strong"], grid.WithClass("hs-band").Select(b => b.Value));
        Assert.Equal(report.Standing.Topics.Length, field.WithClass("hs-mark").Count());
        Assert.All(
            field.WithClass("hs-mark"),
            m => Assert.Equal(((string)m.Attribute("class")!).EndsWith("strong", StringComparison.Ordinal) ? "circle" : "path", m.Name.LocalName));
        Assert.All(field.WithClass("hs-mark-weak"), m => Assert.EndsWith("h11l-5.5 9.5z", m.Attribute("d")!.Value, StringComparison.Ordinal));
        Assert.All(field.WithClass("hs-mark-borderline"), m => Assert.EndsWith("l5.8 5.8-5.8 5.8-5.8-5.8z", m.Attribute("d")!.Value, StringComparison.Ordinal));

        // What the plan adds is hatched, and the part short of the cut score is dotted.
        Assert.NotEmpty(field.WithClass("hs-added"));
        Assert.All(field.WithClass("hs-added").Where(r => r.Number("height") > 6), r => Assert.Single(r.Parent!.WithClass("hs-hatch")));
        XElement distribution = Drawn.Parse(ScoreDistribution.Html(report.Forecast, "d"));
        Assert.All(distribution.WithClass("hs-short"), p => Assert.StartsWith("url(#d-", p.Attribute("fill")!.Value, StringComparison.Ordinal));
        Assert.Contains(distribution.Descendants("text"), t => t.Value.StartsWith("short of it", StringComparison.Ordinal));
        Assert.Contains(distribution.Descendants("text"), t => t.Value.StartsWith("reached", StringComparison.Ordinal));
    }

    [GeneratedRegex(@"url\(#([^)]+)\)")]
    private static partial Regex Reference();

    [GeneratedRegex(@"<([a-zA-Z0-9]+)[^<>]*/>")]
    private static partial Regex SelfClosed();
}
