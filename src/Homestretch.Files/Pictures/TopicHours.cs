using System.Collections.Immutable;
using System.Xml.Linq;

using Homestretch.Core.Blueprints;

using static Homestretch.Files.Pictures.Markup;

namespace Homestretch.Files.Pictures;

/// <summary>Study by topic: what is done, solid, and what is planned, hatched, end to end. The bars stand in a table, so the table is the picture.</summary>
public static class TopicHours
{
    private const double BarWidth = 200;
    private const double BarHeight = 12;

    /// <summary>Topics in the order of the exam; those without study are there too.</summary>
    /// <param name="report">The person's report.</param>
    /// <param name="id">Unique on the page.</param>
    public static string Html(CandidateReport report, string id = "topic-hours")
    {
        ImmutableArray<(ExamTopic Topic, int Done, int Planned)> topics = Minutes(report);
        int most = topics.Max(t => t.Done + t.Planned);
        if (most == 0)
        {
            return Write(El("p", ("id", Id(id)), ("class", "hs-empty"), "No study is done or planned."));
        }

        return Write(El(
            "table",
            ("id", Id(id)),
            ("class", "hs-table hs-hours"),
            El("caption", Sentence(topics) + " Solid: done. Hatched: planned."),
            El("thead", El("tr", El("th", ("scope", "col"), "Topic"), El("td"), El("th", ("scope", "col"), ("class", "hs-figure"), "Done"), El("th", ("scope", "col"), ("class", "hs-figure"), "Planned"))),
            El("tbody", topics.Select(t => El(
                "tr",
                El("th", ("scope", "row"), t.Topic.Name),
                El("td", ("class", "hs-hours-bar"), Bar((double)t.Done / most, (double)t.Planned / most)),
                El("td", ("class", "hs-figure"), Words(t.Done)),
                El("td", ("class", "hs-figure"), Words(t.Planned)))))));
    }

    /// <summary>Minutes done and planned of every topic, in the order of the exam.</summary>
    /// <param name="report">The person's report.</param>
    public static ImmutableArray<(ExamTopic Topic, int Done, int Planned)> Minutes(CandidateReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        return [.. report.Standing.Topics.Select(t => (
            t.Topic,
            report.Study?.Done.Topics.Where(d => d.Topic.Name == t.Topic.Name).Sum(d => d.Minutes) ?? 0,
            report.Plan?.Blocks.Where(b => b.Topic.Name == t.Topic.Name).Sum(b => b.Minutes) ?? 0))];
    }

    private static string Sentence(ImmutableArray<(ExamTopic Topic, int Done, int Planned)> topics)
    {
        int done = topics.Sum(t => t.Done);
        int planned = topics.Sum(t => t.Planned);
        string most = topics.MaxBy(t => t.Done + t.Planned).Topic.Name;
        return done == 0 ? $"{Figures.Duration(planned)} of study are planned, most of it on {most}."
            : planned == 0 ? $"{Figures.Duration(done)} of study are done, most of it on {most}."
            : $"{Figures.Duration(done)} of study are done and {Figures.Duration(planned)} planned, most of it on {most}.";
    }

    private static string Words(int minutes) => minutes == 0 ? "–" : Figures.Duration(minutes);

    private static XElement Bar(double done, double planned)
        => El(
            "svg",
            ("class", "hs-picture"),
            ("viewBox", $"0 0 {N(BarWidth)} {N(BarHeight)}"),
            ("aria-hidden", "true"),
            ("focusable", "false"),
            El("rect", ("class", "hs-gain-ground"), ("width", BarWidth), ("height", BarHeight)),
            done > 0 ? El("rect", ("class", "hs-hours-done"), ("width", BarWidth * done), ("height", BarHeight)) : null,
            planned > 0 ? Hatching.Rectangle(BarWidth * done, 0, BarWidth * planned, BarHeight) : null);
}
