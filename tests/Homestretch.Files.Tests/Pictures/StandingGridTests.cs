using System.Xml.Linq;

using Homestretch.Core.Standing;
using Homestretch.Files.Pictures;

namespace Homestretch.Files.Tests.Pictures;

public class StandingGridTests
{
    [Fact]
    public void Every_topic_stands_once_in_the_cell_of_its_band_and_weight()
    {
        foreach (CandidateReport report in SampleReports.All)
        {
            XElement[] rows = [.. Drawn.Parse(StandingGrid.Html(report)).Descendants("tbody").Single().Elements("tr")];
            int seen = 0;
            for (int band = 0; band < 3; band++)
            {
                XElement[] cells = [.. rows[band].Elements("td")];
                for (int column = 0; column < 3; column++)
                {
                    // Columns run from heavy to light, the enumeration from light to heavy.
                    string[] expected = [.. report.Standing.Topics.Where(t => t.Level.Band == (Band)band && (int)t.Topic.WeightClass == 2 - column).Select(t => t.Topic.Name).Order(StringComparer.Ordinal)];
                    string[] found = [.. cells[column].WithClass("hs-topic").Select(t => t.Value).Order(StringComparer.Ordinal)];
                    Assert.Equal(expected, found);
                    seen += found.Length;
                }
            }

            Assert.Equal(report.Standing.Topics.Length, seen);
        }
    }

    [Fact]
    public void Numbers_are_the_order_of_study_and_unsettled_topics_carry_the_word()
    {
        CandidateReport report = SampleReports.ThreeTopics;
        foreach (XElement entry in Drawn.Parse(StandingGrid.Html(report)).Descendants("li"))
        {
            string name = entry.WithClass("hs-topic").Single().Value;
            TopicStanding standing = report.Standing.Topics.Single(t => t.Topic.Name == name);
            string? order = report.Plan!.Minutes.SingleOrDefault(m => m.Topic.Name == name)?.Order.ToString(System.Globalization.CultureInfo.InvariantCulture);

            Assert.Equal(order, entry.WithClass("hs-order").SingleOrDefault()?.Value);
            Assert.Equal(!standing.Level.Settled, entry.Value.EndsWith("unsettled", StringComparison.Ordinal));
        }

        Assert.Contains(report.Standing.Topics, t => t.Level.Settled);
        Assert.Contains(report.Standing.Topics, t => !t.Level.Settled);
    }

    [Fact]
    public void Without_a_plan_there_are_no_numbers_and_no_word_of_an_order()
    {
        XElement grid = Drawn.Parse(StandingGrid.Html(SampleReports.NothingKnown));
        Assert.Empty(grid.WithClass("hs-order"));
        Assert.DoesNotContain("order", grid.Descendants("caption").Single().Value, StringComparison.Ordinal);
    }
}
