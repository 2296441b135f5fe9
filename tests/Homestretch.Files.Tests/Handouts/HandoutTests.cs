using System.Text.RegularExpressions;
using System.Xml.Linq;

using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Measurement;
using Homestretch.Files.Handouts;
using Homestretch.Files.Pictures;
using Homestretch.Files.Plans;
using Homestretch.Files.StudyLogs;
using Homestretch.Files.Tests.Plans;

namespace Homestretch.Files.Tests.Handouts;

public partial class HandoutTests
{
    [Fact]
    public void Is_one_self_contained_document_without_script()
    {
        foreach (CandidateReport report in SampleReports.All)
        {
            string html = Handout.Html(report);
            Assert.StartsWith("<!DOCTYPE html>\n<html lang=\"en-GB\" data-theme=\"light\">", html, StringComparison.Ordinal);
            Assert.DoesNotContain("<script", html, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("src=", Style().Replace(html, string.Empty).Replace("img src=x", string.Empty, StringComparison.Ordinal), StringComparison.Ordinal);
            Assert.DoesNotContain("http", Style().Replace(html, string.Empty).Replace("http-equiv", string.Empty, StringComparison.Ordinal), StringComparison.Ordinal);
            Assert.DoesNotMatch(@"url\(""?(?!data:|#|"")", html);
            XElement root = Body(html);
            string[] ids = [.. root.Descendants().Attributes("id").Select(a => a.Value)];
            Assert.Equal(ids.Length, ids.Distinct().Count());
            Assert.Equal(["h1"], root.Descendants().Where(e => e.Name == "h1").Select(e => e.Name.LocalName));
        }
    }

    [Fact]
    public void Answers_first_and_says_everything_a_person_needs()
    {
        CandidateReport report = SampleReports.ThreeWeeks;
        XElement body = Body(Handout.Html(report));
        string text = body.Value.Replace('\u00A0', ' ');

        Assert.Equal("Mara Venn", body.Descendants("h1").Single().Value);
        Assert.Contains("Exam on Wednesday 16 December 2026, 21 days left", text, StringComparison.Ordinal);
        Assert.Equal(
            ["Will you pass?", "How sure is this?", "Topics by standing and weight", "Hours by topic", "What to study, in this order", "What to leave alone", "Pace on exam day", "Your calendar", "Bear in mind"],
            body.Descendants("h2").Select(h => h.Nodes().OfType<XText>().First().Value));
        Assert.All(report.Plan!.Minutes, m => Assert.Contains(m.Reason, text, StringComparison.Ordinal));
        Assert.All(report.Plan.LeftAlone, l => Assert.Contains(l.Reason, text, StringComparison.Ordinal));
        Assert.All(report.Plan.Policies, p => Assert.Contains(Figures.Percent(p.PassChance), text, StringComparison.Ordinal));
        Assert.Contains("45 days must pass between attempts, and at most 3 attempts a year are allowed", text, StringComparison.Ordinal);
        Assert.Contains("A forecast is not a promise", text, StringComparison.Ordinal);
        Assert.Contains("current handbook overrules", text, StringComparison.Ordinal);
        Assert.Contains("Candidate handbook, Guild of Small-Museum Registrars, 1 February 2026, chapter 3", text, StringComparison.Ordinal);
        Assert.Equal(report.Plan.Minutes.OrderBy(m => m.Order).Select(m => m.Topic.Name), body.Descendants("ol").Single().Elements("li").Select(l => l.Element("b")!.Value));
    }

    [Fact]
    public void What_has_changed_is_told_change_by_change()
    {
        CandidateReport report = ReplannedReports.AWeekLater;
        string text = Body(Handout.Html(report)).Value.Replace('\u00A0', ' ');

        Assert.Contains("What has changed since the last plan", text, StringComparison.Ordinal);
        string[] sentences = [.. RevisionSentences.Summary(report.Plan!, report.Plan!.Revision!), .. RevisionSentences.All(report.Plan.Revision!, report.Plan.Zone)];
        Assert.True(sentences.Length > 4);
        Assert.All(sentences, s => Assert.Contains(s, text, StringComparison.Ordinal));
        Assert.DoesNotContain("What has changed", Handout.Html(SampleReports.ThreeWeeks), StringComparison.Ordinal);
    }

    [Fact]
    public void How_the_pass_chance_has_moved_stands_beside_the_hours()
    {
        PassMoment[] moments = [.. Enumerable.Range(1, 9).Select(i => new PassMoment(new NodaTime.LocalDateTime(2026, 11, 10 + i, 8, 0), 0.5 + (i / 100.0), 0.3, $"Event <{i}>."))];
        XElement body = Body(Handout.Html(SampleReports.ThreeWeeks with { History = [.. moments] }));

        // The latest, under the numbers that they have in the picture.
        XElement events = body.Descendants("ol").Single(o => (string?)o.Attribute("class") == "hs-events");
        Assert.Equal("4", (string?)events.Attribute("start"));
        Assert.Equal(["Event <4>.", "Event <9>."], new[] { events.Elements().First(), events.Elements().Last() }.Select(e => e.Value.Split(": ")[^1]));
        Assert.DoesNotContain("How the pass chance has moved", Handout.Html(SampleReports.ThreeWeeks with { History = [moments[0]] }), StringComparison.Ordinal);
    }

    [Fact]
    public void Study_that_was_done_is_told_before_the_plan()
    {
        CandidateReport report = SampleReports.ThreeWeeks;
        StudyReport study = new(StudyDone.Of(report.Standing, null), report.Standing.Rate, new LearningBasis(LearningAssumptions.Default, null, 0, "Assumed."), ["A note."]);

        XElement body = Body(Handout.Html(report with { Study = study }));

        string[] heads = [.. body.Descendants("h2").Select(h => h.Nodes().OfType<XText>().First().Value)];
        Assert.Equal(["What you have done", "Hours by topic", "What to study, in this order"], heads.SkipWhile(h => h != "What you have done").Take(3));
        Assert.Contains("No study has been logged so far.", body.Value, StringComparison.Ordinal);
        Assert.Contains("A note.", body.Value, StringComparison.Ordinal);
    }

    [Fact]
    public void Lead_names_every_mark_that_counts()
    {
        Assert.Matches("^You are about [0-9]+ items? (short of|above) the cut score in Care of collections and about [0-9]+ items? (short of|above) it in Documents and law\\. About [0-9]+ of 100? people", Handout.Lead(SampleReports.ThreeWeeks));
        Assert.Matches("^You are about [0-9]+ items? above the cut score\\.", Handout.Lead(SampleReports.ThreeTopics));
        Assert.Contains("in the whole exam", Handout.Lead(SampleReports.TwelveTopics), StringComparison.Ordinal);
    }

    [Fact]
    public void Without_answers_it_says_so_first()
        => Assert.StartsWith("No answers have been entered yet", Handout.Lead(SampleReports.NothingKnown), StringComparison.Ordinal);

    [Fact]
    public void Without_a_plan_it_shows_worth_and_the_next_step()
    {
        string text = Body(Handout.Html(SampleReports.NothingKnown)).Value;
        Assert.Contains("What half an hour is worth", text, StringComparison.Ordinal);
        Assert.Contains("There is no plan yet.", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Your calendar", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_plan_without_blocks_shows_its_notes_and_no_promise()
    {
        CandidateReport report = SampleReports.NoFreeTime;
        string text = Body(Handout.Html(report)).Value.Replace('\u00A0', ' ');

        Assert.NotEmpty(report.Plan!.Notes);
        Assert.All(report.Plan.Notes, n => Assert.Contains(n, text, StringComparison.Ordinal));
        Assert.Contains("No block is planned before the exam.", text, StringComparison.Ordinal);
        Assert.DoesNotContain("with this plan", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Is_small_enough_to_mail()
        => Assert.All(SampleReports.All, r => Assert.InRange(Handout.Html(r).Length, 60_000, 250_000));

    private static XElement Body(string html)
    {
        int from = html.IndexOf("<main>", StringComparison.Ordinal);
        return XElement.Parse(html[from..(html.IndexOf("</main>", StringComparison.Ordinal) + 7)], LoadOptions.PreserveWhitespace);
    }

    [GeneratedRegex("<style>.*?</style>", RegexOptions.Singleline)]
    private static partial Regex Style();
}
