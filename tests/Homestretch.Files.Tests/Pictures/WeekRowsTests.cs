using System.Xml.Linq;

using Homestretch.Core.Planning;
using Homestretch.Files.Pictures;

using NodaTime;

namespace Homestretch.Files.Tests.Pictures;

public class WeekRowsTests
{
    private static readonly StudyPlan Plan = SampleReports.ThreeWeeks.Plan!;

    [Fact]
    public void Every_block_stands_once_on_its_day_in_each_form()
    {
        XElement page = Drawn.Parse(WeekRows.Html(Plan, SampleReports.Slots(SampleReports.ThreeWeeks, 100)));
        foreach (string form in new[] { "hs-wide", "hs-narrow" })
        {
            XElement calendar = page.WithClass(form).Single();
            Assert.Equal(Plan.Blocks.Select(b => Dates.Span(b.Start, b.End)), calendar.WithClass("hs-block-time").Select(t => t.Value.Split(',')[0]));
            Assert.Equal(Plan.Blocks.Length, calendar.WithClass("hs-window").Where(w => !((string)w.Attribute("class")!).Contains("bare", StringComparison.Ordinal)).Sum(w => w.WithClass("hs-block").Count()));
        }
    }

    [Fact]
    public void Free_time_without_a_block_is_ground_too()
    {
        XElement page = Drawn.Parse(WeekRows.Html(Plan, SampleReports.Slots(SampleReports.ThreeWeeks, 200)));
        int windows = SampleReports.Slots(SampleReports.ThreeWeeks, 200).Select(s => s.Window).Distinct().Count();
        Assert.Equal(windows, page.WithClass("hs-wide").Single().WithClass("hs-window-head").Count());
    }

    [Fact]
    public void In_narrow_space_only_today_is_open()
    {
        LocalDate today = Plan.Blocks[5].Start.Date;
        XElement narrow = Drawn.Parse(WeekRows.Html(Plan, today: today)).WithClass("hs-narrow").Single();
        XElement open = narrow.Descendants("details").Single(d => d.Attribute("open") is not null);

        Assert.StartsWith(Dates.Day(today), open.Element("summary")!.Value.Replace('\u00A0', ' '), StringComparison.Ordinal);
    }

    [Fact]
    public void The_exam_is_on_its_day()
    {
        XElement day = Drawn.Parse(WeekRows.Html(Plan)).WithClass("hs-exam").Single();
        Assert.StartsWith(Dates.DayOfWeek(Plan.ExamDay), day.Value, StringComparison.Ordinal);
        Assert.EndsWith("Exam", day.Value, StringComparison.Ordinal);
    }

    [Fact]
    public void On_paper_a_short_plan_is_a_table_of_weeks_and_a_long_one_a_list_of_days()
    {
        XElement table = Drawn.Parse(WeekRows.PrintHtml(Plan));
        XElement list = Drawn.Parse(WeekRows.PrintHtml(SampleReports.TwelveTopics.Plan!));

        Assert.Equal(4, table.Descendants("tbody").Single().Elements("tr").Count());
        Assert.All(table.Descendants("tr"), r => Assert.Equal(7, r.Elements().Count()));
        int days = SampleReports.TwelveTopics.Plan!.Blocks.Select(b => b.Start.Date).Distinct().Count();
        Assert.Equal(days + 1, list.WithClass("hs-print-day").Count());
    }

    [Fact]
    public void No_block_is_said_in_a_sentence()
    {
        Assert.Contains("No block is planned", WeekRows.Html(SampleReports.NoFreeTime.Plan!), StringComparison.Ordinal);
        Assert.Contains("No block is planned", WeekRows.PrintHtml(SampleReports.NoFreeTime.Plan!), StringComparison.Ordinal);
    }
}
