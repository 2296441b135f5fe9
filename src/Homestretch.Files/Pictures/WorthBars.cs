using System.Xml.Linq;

using static Homestretch.Files.Pictures.Markup;

namespace Homestretch.Files.Pictures;

/// <summary>What the next minutes of study on each topic are worth. The bars stand in a table, so the table is the picture.</summary>
public static class WorthBars
{
    /// <summary>Topics by gain in pass chance, the greatest first; an equal gain keeps the exam's order.</summary>
    /// <param name="report">The person's report.</param>
    /// <param name="id">Unique on the page.</param>
    public static string Html(CandidateReport report, string id = "worth")
    {
        if (report.Worth.IsEmpty)
        {
            return Write(El("p", ("id", Id(id)), ("class", "hs-empty"), "There is nothing to compare yet."));
        }

        double mostPass = Math.Max(report.Worth.Max(w => w.PassGain), 1e-9);
        double mostScore = Math.Max(report.Worth.Max(w => w.ScoreGain), 1e-9);
        int minutes = report.Worth[0].Minutes;
        return Write(El(
            "table",
            ("id", Id(id)),
            ("class", "hs-table hs-worth"),
            El("caption", $"What the next {Figures.Duration(minutes)} on each topic would add by exam day."),
            El("thead", El("tr", El("th", ("scope", "col"), "Topic"), El("th", ("scope", "col"), "Pass chance"), El("th", ("scope", "col"), "Expected score"))),
            El(
                "tbody",
                report.Worth.OrderByDescending(w => w.PassGain).Select(w => El(
                    "tr",
                    El("th", ("scope", "row"), w.Topic.Name),
                    Gain(w.PassGain / mostPass, Figures.Points(w.PassGain), "hs-gain-pass"),
                    Gain(w.ScoreGain / mostScore, Figures.ItemGain(w.ScoreGain), "hs-gain-score"))))));
    }

    private static XElement Gain(double share, string words, string css)
        => El(
            "td",
            ("class", "hs-gain " + css),
            El(
                "svg",
                ("class", "hs-gain-bar"),
                ("viewBox", "0 0 100 12"),
                ("preserveAspectRatio", "none"),
                ("aria-hidden", "true"),
                ("focusable", "false"),
                El("rect", ("class", "hs-gain-ground"), ("width", 100), ("height", 12)),
                El("rect", ("class", "hs-gain-fill"), ("width", Math.Clamp(share, 0, 1) * 100), ("height", 12))),
            El("span", ("class", "hs-figure"), words));
}
