using System.Collections.Immutable;
using System.Xml.Linq;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Standing;
using Homestretch.Files.Pictures;

using NodaTime;

namespace Homestretch.Files.Tests.Pictures;

public class PaceTableTests
{
    [Fact]
    public void Every_section_has_its_clock()
    {
        // 100 minutes for 80 items: 95 usable, so 11.875 minutes for every ten items.
        XElement table = Drawn.Parse(PaceTable.Html(SampleReports.ThreeWeeks)).WithClass("hs-clock").First();
        Assert.Equal("Care of collections: 80 items, 100 minutes", table.Element("caption")!.Value);
        Assert.Equal(
            ["item done 10 20 30 40 50 60 70 80", "by minute 11 23 35 47 59 71 83 95", "minutes left 89 77 65 53 41 29 17 5"],
            table.Descendants("tr").Select(r => string.Join(' ', r.Elements().Select(c => c.Value))));
        Assert.Equal(2, Drawn.Parse(PaceTable.Html(SampleReports.ThreeWeeks)).WithClass("hs-clock").Count());
    }

    [Fact]
    public void Without_times_it_says_what_is_allowed()
        => Assert.Equal("The exam allows 75 seconds an item in Care of collections and 100 seconds an item in Documents and law.", PaceTable.Lead(SampleReports.ThreeWeeks));

    [Fact]
    public void With_times_it_says_whether_the_end_is_reached()
    {
        CandidateReport slow = WithTimes(90);
        Assert.Equal(slow.Forecast.Pace!.Sentence, PaceTable.Lead(slow));
        Assert.Matches(@"^At your pace \(about 90 seconds an item\) you would reach about item 6[4-7] of 80 in Care of collections.*; answering the rest by chance costs", PaceTable.Lead(slow));
        Assert.Contains(PaceTable.Lead(slow), Drawn.Parse(PaceTable.Html(slow)).Value, StringComparison.Ordinal);
        Assert.StartsWith("At your pace (about 40 seconds an item) you will most likely reach the last item", PaceTable.Lead(WithTimes(40)), StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_is_said_of_time_where_there_is_no_limit()
    {
        Exam exam = SampleReports.ThreeWeeks.Standing.Exam;
        Assert.True(PaceTable.Applies(exam));
        Section first = exam.Sections[0];
        Section untimed = new(first.Name, first.ScoredItems, first.UnscoredItems, null, first.Options, first.Cut, first.Topics);
        Assert.False(PaceTable.Applies(new Exam(exam.Name, null, null, [untimed], exam.Rule, null, null, exam.Bands)));
    }

    private static CandidateReport WithTimes(double seconds)
    {
        CandidateReport report = SampleReports.ThreeWeeks;
        ImmutableArray<Observation> answers = [.. Enumerable.Range(0, 40).Select(i => new ItemResponse("Cataloguing", null, $"{i}", i % 3 > 0, seconds + (i % 9) - 4, null))];
        CandidateStanding standing = StandingCalculator.Calculate(
            report.Standing.Exam, [new Attempt("Mara Venn", "diagnostic", AttemptKind.Diagnostic, new LocalDate(2026, 11, 22), answers)], report.Standing.AsOf);
        return report with { Standing = standing, Forecast = ForecastCalculator.Calculate(standing) };
    }
}
