using System.Globalization;
using System.Xml.Linq;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Standing;

using static Homestretch.Files.Pictures.Markup;

namespace Homestretch.Files.Pictures;

/// <summary>Topics by standing and weight, as a table of three by three, with the order of study as numbers.</summary>
public static class StandingGrid
{
    private const int Many = 15;
    private static readonly Band[] Bands = [Band.Weak, Band.Borderline, Band.Strong];
    private static readonly WeightClass[] Weights = [WeightClass.Heavy, WeightClass.Moderate, WeightClass.Light];

    /// <summary>The table. Without a plan it has no numbers.</summary>
    /// <param name="report">The person's report.</param>
    /// <param name="id">Unique on the page.</param>
    public static string Html(CandidateReport report, string id = "standing-grid")
    {
        bool numbered = report.Plan is { Minutes.IsEmpty: false };
        bool unsettled = report.Standing.Topics.Any(t => !t.Level.Settled);
        string caption = "Topics by standing and by weight in the exam."
            + (numbered ? " Numbers give the order of study." : string.Empty)
            + (unsettled ? " Unsettled: too few answers yet to be sure of the row." : string.Empty);
        return Write(El(
            "div",
            ("class", "hs-grid-box"),
            El(
                "table",
                ("id", Id(id)),
                ("class", report.Standing.Topics.Length > Many ? "hs-table hs-standing-grid hs-many" : "hs-table hs-standing-grid"),
                El("caption", caption),
                El("thead", El("tr", El("td"), Weights.Select(w => El("th", ("scope", "col"), w.Word(), El("span", ("class", "hs-note"), Meaning(w)))))),
                El("tbody", Bands.Select(b => Row(report, b))))));
    }

    private static string Meaning(WeightClass weight) => weight switch
    {
        WeightClass.Heavy => "many items",
        WeightClass.Moderate => "about an equal share",
        _ => "few items",
    };

    private static XElement Row(CandidateReport report, Band band)
        => El(
            "tr",
            El(
                "th",
                ("scope", "row"),
                El("span", ("class", "hs-band"), BandMark.Inline(band), band.Word()),
                El("span", ("class", "hs-note"), BandMark.Meaning(band, report.Standing.Exam.Bands))),
            Weights.Select(w => El("td", ("class", $"hs-cell-{band.Word()}"), Cell(report, band, w))));

    private static XElement? Cell(CandidateReport report, Band band, WeightClass weight)
    {
        XElement[] topics =
        [
            .. report.Standing.Topics
                .Where(t => t.Level.Band == band && t.Topic.WeightClass == weight)
                .Select(t => (Standing: t, Order: report.Plan?.Minutes.FirstOrDefault(m => m.Topic.Name == t.Topic.Name)?.Order))
                .OrderBy(t => t.Order ?? int.MaxValue)
                .Select(t => Entry(t.Standing, t.Order)),
        ];
        return topics.Length == 0 ? null : El("ul", topics);
    }

    private static XElement Entry(TopicStanding standing, int? order)
        => El(
            "li",
            order is { } place ? El("span", ("class", "hs-order"), place.ToString(CultureInfo.InvariantCulture)) : null,
            order is null ? null : " ",
            El("span", ("class", "hs-topic"), standing.Topic.Name),
            standing.Level.Settled ? null : " ",
            standing.Level.Settled ? null : El("span", ("class", "hs-unsettled"), "unsettled"));
}
