using System.Xml.Linq;

using Homestretch.Files.Pictures;

namespace Homestretch.Files.Tests.Pictures;

/// <summary>Study done and planned by topic.</summary>
public sealed class TopicHoursTests
{
    [Fact]
    public void Every_topic_has_its_minutes_in_words_and_as_a_bar()
    {
        CandidateReport report = SampleReports.ThreeWeeks;
        XElement table = XElement.Parse(TopicHours.Html(report));

        XElement[] rows = [.. table.Element("tbody")!.Elements("tr")];
        Assert.Equal(report.Standing.Topics.Select(t => t.Topic.Name), rows.Select(r => r.Element("th")!.Value));
        Assert.Equal(
            report.Standing.Topics.Select(t => report.Plan!.Blocks.Where(b => b.Topic.Name == t.Topic.Name).Sum(b => b.Minutes)).Select(m => m == 0 ? "–" : Figures.Duration(m)),
            rows.Select(r => r.Elements("td").Last().Value.Replace('\u00A0', ' ')), StringComparer.Ordinal);

        // The longest bar fills its ground; the others are in proportion.
        double[] widths = [.. rows.Select(r => r.Descendants("rect").Where(x => (string?)x.Attribute("class") == "hs-added").Sum(x => (double)x.Attribute("width")!))];
        int[] minutes = [.. TopicHours.Minutes(report).Select(m => m.Planned)];
        Assert.Equal(200, widths.Max(), 1);
        Assert.All(widths.Zip(minutes), pair => Assert.Equal(200.0 * pair.Second / minutes.Max(), pair.First, 0.02));
        Assert.All(table.Descendants("svg"), svg => Assert.Equal("true", (string?)svg.Attribute("aria-hidden")));
    }

    [Fact]
    public void The_sentence_says_how_much_in_all()
    {
        CandidateReport report = SampleReports.ThreeWeeks;
        string caption = XElement.Parse(TopicHours.Html(report)).Element("caption")!.Value.Replace('\u00A0', ' ');

        Assert.StartsWith($"{Figures.Duration(report.Plan!.Blocks.Sum(b => b.Minutes))} of study are planned, most of it on ", caption, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_study_it_says_so() => Assert.Contains("No study is done or planned.", TopicHours.Html(SampleReports.NothingKnown), StringComparison.Ordinal);
}
