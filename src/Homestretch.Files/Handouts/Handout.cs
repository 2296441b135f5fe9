using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Xml.Linq;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Planning;
using Homestretch.Core.Standing;
using Homestretch.Files.Pictures;
using Homestretch.Files.Plans;
using Homestretch.Files.Printing;

using static Homestretch.Files.Pictures.Markup;

namespace Homestretch.Files.Handouts;

/// <summary>What a person takes home on one or two sheets of paper: where I stand, will I pass, what to study when, what to leave alone.</summary>
public static class Handout
{
    /// <summary>One self-contained HTML document, A4 or Letter, legible in grey: style and fonts inside, no script, nothing loaded.</summary>
    /// <param name="report">The person's report; a plan may be missing or have no blocks.</param>
    public static string Html(CandidateReport report)
        => Paper.Html(Title(report), Style, $"<main>{Body(report, string.Empty)}</main>");

    /// <summary>The handouts of several people as one document, each beginning on a new page of a given paper.</summary>
    /// <param name="reports">Their reports, at least one.</param>
    /// <param name="paper">The paper.</param>
    /// <param name="backs">Numbers of the handouts, from 0, that an empty page follows, so that the next one begins on a new sheet when both sides are printed.</param>
    public static string Html(ImmutableArray<CandidateReport> reports, PaperSize paper, IReadOnlySet<int> backs)
    {
        ArgumentOutOfRangeException.ThrowIfZero(reports.Length);
        StringBuilder main = new("<main>");
        foreach ((int i, CandidateReport report) in reports.Index())
        {
            main.Append(CultureInfo.InvariantCulture, $"<div class=\"person\">{Body(report, reports.Length == 1 ? string.Empty : $"p{i + 1}-")}</div>");
            main.Append(backs.Contains(i) ? "<div class=\"back\" aria-hidden=\"true\"></div>" : string.Empty);
        }

        return Paper.Html(
            reports.Length == 1 ? Title(reports[0]) : $"Handouts for {Figures.Plural(reports.Length, "person", "people")}",
            Style + $"@page {{ size: {(paper == PaperSize.A4 ? "A4" : "Letter")}; }}\n.person + .person, .back, .back + .person {{ break-before: page; }}\n.back {{ height: 1px; }}\n",
            main.Append("</main>").ToString());
    }

    private static string Style => Look.Pictures + Look.Handout;

    private static string Title(CandidateReport report) => $"{report.Candidate}: {report.Standing.Exam.Name}";

    private static string Body(CandidateReport report, string prefix)
    {
        StringBuilder body = new();
        body.Append(Write(Head(report)));
        body.Append(Write(El("p", ("class", "lead"), Lead(report))));
        body.Append("<section class=\"keep\">").Append(ScoreField.PrintHtml(report, prefix + "score-field")).Append("</section>");
        body.Append("<div class=\"beside keep\">").Append(Write(Chances(report, prefix))).Append("<div>").Append(Write(HowSure(report))).Append(Notes(report)).Append("</div></div>");
        body.Append("<section class=\"keep\"><h2>Topics by standing and weight</h2>").Append(StandingGrid.Html(report, prefix + "standing-grid")).Append("</section>");
        body.Append(Study(report)).Append(Hours(report, prefix));
        string pace = PaceTable.Applies(report.Standing.Exam) ? "<section class=\"keep\"><h2>Pace on exam day</h2>" + PaceTable.Html(report, prefix + "pace") + "</section>" : string.Empty;
        body.Append(report.Plan is null ? WithoutPlan(report, prefix) + pace : Plan(report, pace));
        body.Append(Write(Cautions(report)));
        body.Append(Write(Source(report.Standing.Exam)));
        return body.ToString();
    }

    /// <summary>Where do I stand, and will I pass: the answer in two sentences.</summary>
    /// <param name="report">The person's report.</param>
    public static string Lead(CandidateReport report)
    {
        if (report.Standing.EvidenceItems == 0)
        {
            return "No answers have been entered yet, so nothing here is about you: the figures are what is usual. Take a diagnostic test first.";
        }

        ImmutableArray<ScoreBar> bars = ScoreBar.Of(report, TopicColumn.Of(report));
        string standing = bars.Length == 1
            ? $"You are {Margin(bars[0])} the cut score."
            : $"You are {Join([.. bars.Select((b, i) => $"{Margin(b)} {(i == 0 ? "the cut score" : "it")} {Where(b)}")])}.";
        return standing + " " + PassChance.Sentence(report.Forecast.PassChance, After(report)?.PassChance);
    }

    private static PolicyOutcome? After(CandidateReport report)
        => report.Plan is { Blocks.IsEmpty: false } plan ? plan.Outcome(plan.Chosen) : null;

    private static string Margin(ScoreBar bar)
    {
        int items = (int)Math.Round(bar.Now - bar.Cut, MidpointRounding.AwayFromZero);
        return items == 0 ? "right at" : $"about {Figures.Plural(Math.Abs(items), "item")} {(items > 0 ? "above" : "short of")}";
    }

    private static string Where(ScoreBar bar) => bar.Section is null ? "in the whole exam" : "in " + bar.Name;

    private static string Join(ImmutableArray<string> parts)
        => parts.Length < 2 ? string.Concat(parts) : string.Join(", ", parts[..^1]) + " and " + parts[^1];

    private static XElement Head(CandidateReport report)
    {
        Exam exam = report.Standing.Exam;
        List<string> when = [];
        if (report.Plan is { } plan)
        {
            when.Add($"Exam on {Dates.FullDay(plan.ExamDay)}");
            when.Add(Dates.Until(plan.From.Date, plan.ExamDay));
        }

        when.Add($"written on {Dates.Plain(report.Plan?.From.Date ?? report.Standing.AsOf)}");
        return El(
            "header",
            El("h1", report.Candidate),
            El("p", ("class", "exam"), exam.Name + (exam.Edition is null ? string.Empty : $", edition {exam.Edition}")),
            El("p", ("class", "when"), string.Join(", ", when)));
    }

    private static XElement Chances(CandidateReport report, string prefix)
    {
        XElement section = El(
            "section",
            El("h2", "Will you pass?"),
            PassChance.Draw(report.Forecast.PassChance, After(report)?.PassChance, prefix + "pass-chance"));
        IEnumerable<(string Name, double Chance, int Minutes, bool Chosen)> rows = report.Plan is { } plan
            ? plan.Policies.Select(p => (PassChance.Row(plan, p.Policy), p.PassChance, p.Minutes, p.Policy == plan.Chosen))
            : [("Now", report.Forecast.PassChance, 0, false)];
        section.Add(El(
            "table",
            ("class", "chances"),
            El("thead", El("tr", El("th", ("scope", "col"), "Plan"), El("th", ("scope", "col"), ("class", "num"), "Study"), El("th", ("scope", "col"), ("class", "num"), "Pass chance"))),
            El("tbody", rows.Select(r => El(
                "tr",
                ("class", r.Chosen ? "chosen" : null),
                El("th", ("scope", "row"), r.Name),
                El("td", ("class", "num"), r.Minutes == 0 ? "none" : Figures.Duration(r.Minutes)),
                El("td", ("class", "num"), Figures.Percent(r.Chance)))))));
        if (report.Forecast.Sections.Length > 1 && report.Standing.Exam.Rule != OverallRule.Total)
        {
            section.Add(El("p", ("class", "note"), "Now, section by section: " + string.Join("; ", report.Forecast.Sections.Where(s => s.PassChance is not null).Select(s => $"{s.Section.Name} {Figures.Percent(s.PassChance!.Value)}")) + "."));
        }

        return section;
    }

    private static string Study(CandidateReport report)
        => report.Study is { } study
            ? Write(El("section", ("class", "keep"), El("h2", "What you have done"), El("ul", ("class", "notes"), study.Sentences(report.Standing.Exam).Select(s => El("li", s)))))
            : string.Empty;

    private static string Hours(CandidateReport report, string prefix)
    {
        string hours = report.Plan is { Blocks.IsEmpty: false } || report.Study is { Done.Minutes: > 0 }
            ? "<section><h2>Hours by topic</h2>" + TopicHours.Html(report, prefix + "topic-hours") + "</section>"
            : string.Empty;
        string history = report.History.Length > 1
            ? "<section><h2>How the pass chance has moved</h2>" + PassHistory.PrintHtml(report.History, prefix + "pass-history") + "</section>"
            : string.Empty;
        return hours.Length + history.Length == 0 ? string.Empty : $"<div class=\"{(history.Length > 0 ? "beside keep" : "keep")}\">{hours}{history}</div>";
    }

    private static string Notes(CandidateReport report)
    {
        string[] notes = [.. report.Plan?.Notes ?? [], .. report.Standing.Taking.Notes];
        return notes.Length == 0 ? string.Empty : Write(El("section", El("h2", "Know this first"), El("ul", ("class", "notes"), notes.Select(n => El("li", n)))));
    }

    private static string Plan(CandidateReport report, string pace)
    {
        StudyPlan plan = report.Plan!;
        StringBuilder text = new();
        bool order = !plan.Minutes.IsEmpty;
        if (plan.Revision is { } change)
        {
            text.Append(Write(El(
                "section",
                El("h2", "What has changed since the last plan"),
                El("p", string.Join(" ", RevisionSentences.Summary(plan, change))),
                change.Changes.IsEmpty ? null : El("ul", ("class", "notes"), RevisionSentences.All(change, plan.Zone).Select(c => El("li", c))))));
        }

        text.Append(order && (!plan.LeftAlone.IsEmpty || pace.Length > 0) ? "<div class=\"beside\">" : "<div>");
        if (order)
        {
            text.Append(Write(El("section", El("h2", "What to study, in this order"), El("ol", ("class", "order"), plan.Minutes.OrderBy(m => m.Order).Select(m => Study(m, report.ChangeOf(m.Topic)))))));
        }

        text.Append("<div>");
        if (!plan.LeftAlone.IsEmpty)
        {
            text.Append(Write(El("section", El("h2", "What to leave alone"), El("ul", ("class", "alone"), Alone(report)))));
        }

        text.Append(pace).Append("</div></div><section class=\"calendar\">");
        text.Append(Write(El(
            "h2",
            "Your calendar",
            plan.Blocks.IsEmpty ? null : El("span", ("class", "hs-quiet"), $" {Figures.Plural(plan.Blocks.Length, "block")}, {Figures.Duration(plan.Blocks.Sum(b => b.Minutes))} in all"))));
        text.Append(WeekRows.PrintHtml(plan)).Append("</section>");
        text.Append(Material(report));
        return text.ToString();
    }

    private static string Material(CandidateReport report)
    {
        if (report.Material is not { } material || report.Plan!.Blocks.IsEmpty)
        {
            return string.Empty;
        }

        ImmutableArray<string> notes = material.Notes(report.Standing.Exam);
        return Write(El(
            "section",
            El("h2", "What to study from"),
            notes.IsEmpty ? null : El("ul", ("class", "notes"), notes.Select(n => El("li", n))),
            El(
                "table",
                ("class", "chances"),
                El("thead", El("tr", El("th", ("scope", "col"), "When"), El("th", ("scope", "col"), "Topic"), El("th", ("scope", "col"), "With"))),
                El("tbody", report.Plan.Blocks.Zip(material.Blocks).Where(b => !b.Second.IsEmpty).Select(b => El(
                    "tr",
                    El("th", ("scope", "row"), $"{Dates.Day(b.First.Start.Date)}, {Dates.Time(b.First.Start.TimeOfDay)}".Replace(' ', '\u00A0')),
                    El("td", $"{b.First.Topic.Name}: {Documents.Words.Of(b.First.Purpose)}"),
                    El("td", string.Join("; ", b.Second.Select(p => p.Sentence)))))))));
    }

    private static XElement Study(TopicMinutes minutes, string? change)
        => El(
            "li",
            El("b", minutes.Topic.Name),
            El("span", ("class", "hs-quiet"), $" {Figures.Duration(minutes.Minutes)}. "),
            minutes.Reason,
            change is null ? null : El("span", ("class", "hs-quiet"), " " + change));

    private static IEnumerable<XElement> Alone(CandidateReport report)
        // Topics left alone for the same reason, which the same would change, share one line.
        => report.Plan!.LeftAlone.GroupBy(l => $"{l.Reason} {report.ChangeOf(l.Topic)}".TrimEnd()).Select(g => El(
            "li",
            El("b", string.Join(", ", g.Select(l => l.Topic.Name))),
            ". ",
            g.Key));

    private static string WithoutPlan(CandidateReport report, string prefix)
        => "<section class=\"keep\"><h2>What half an hour is worth</h2>" + WorthBars.Html(report, prefix + "worth")
            + Write(El("p", ("class", "note"), "There is no plan yet. Add your free time and the day of the exam to get one.")) + "</section>";

    private static XElement HowSure(CandidateReport report)
    {
        CandidateStanding standing = report.Standing;
        int unsettled = standing.Topics.Count(t => !t.Level.Settled);
        string text = standing.EvidenceItems == 0
            ? "Not at all yet: there are no answers to go by."
            : $"These figures rest on {Figures.Plural(standing.EvidenceItems, "answered item")}. "
                + (unsettled == 0
                    ? "The standing of every topic is settled. "
                    : $"The standing of {unsettled} of {Figures.Plural(standing.Topics.Length, "topic")} is not settled: a few more items could move {(unsettled == 1 ? "it" : "them")} up or down a row. ")
                + Spread(report.Forecast)
                + " A short quiz on a topic makes its figure surer.";
        return El("section", El("h2", "How sure is this?"), El("p", text), El("p", ("class", "note"), string.Join(' ', report.Basis.Sentences(standing))));
    }

    private static string Spread(Forecast forecast)
    {
        double sum = 0;
        int low = -1;
        int high = forecast.Distribution.Length - 1;
        for (int i = 0; i < forecast.Distribution.Length; i++)
        {
            sum += forecast.Distribution[i];
            low = low < 0 && sum >= 0.05 ? i : low;
            if (sum >= 0.95)
            {
                high = i;
                break;
            }
        }

        return string.Create(CultureInfo.InvariantCulture, $"Without more study, your score would lie between {Math.Max(low, 0)} and {high} of {Figures.Plural(forecast.Distribution.Length - 1, "item")} nine times of ten.");
    }

    private static XElement Cautions(CandidateReport report)
    {
        List<string> cautions =
        [
            "A forecast is not a promise. It says what happens to many people in your position.",
            "The exam owner's current handbook overrules everything printed here.",
            "No study material contains the real questions.",
            "Rest and sleep come before one more hour.",
            "Accommodations and retakes are the exam owner's to decide. Ask early.",
        ];
        if (report.Standing.Exam.Retake is { } retake)
        {
            cautions.Add(string.Create(CultureInfo.InvariantCulture, $"If you have to sit again: {(retake.WaitingDays == 0 ? "no waiting time is published" : $"{Figures.Plural(retake.WaitingDays, "day")} must pass between attempts")}{(retake.AttemptsPerYear is { } most ? $", and at most {Figures.Plural(most, "attempt")} a year {(most == 1 ? "is" : "are")} allowed" : string.Empty)}."));
        }

        return El("section", ("class", "keep"), El("h2", "Bear in mind"), El("ul", ("class", "cautions"), cautions.Select(c => El("li", c))));
    }

    private static XElement Source(Exam exam)
        => El(
            "footer",
            exam.Source is { } source
                ? $"The exam's figures come from: {source.Title}, {Dates.Plain(source.Date)}{(source.Where is null ? string.Empty : ", " + source.Where)}."
                : "Where the exam's figures were published has not been entered.");
}
