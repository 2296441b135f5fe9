using System.Xml.Linq;

using static Homestretch.Files.Pictures.Markup;

namespace Homestretch.Files.Pictures;

/// <summary>A picture's figures as a table, folded below it.</summary>
internal static class DataTable
{
    /// <param name="caption">What the table shows.</param>
    /// <param name="heads">Column headings; the first column holds row headings, the others figures.</param>
    /// <param name="rows">One array per row, as long as <paramref name="heads"/>.</param>
    public static XElement Of(string caption, string[] heads, IEnumerable<string[]> rows)
        => El(
            "details",
            ("class", "hs-data"),
            El("summary", "Figures as a table"),
            El(
                "div",
                ("class", "hs-scroll"),
                ("tabindex", "0"),
                ("role", "region"),
                ("aria-label", caption),
                El(
                    "table",
                    El("caption", caption),
                    El("thead", El("tr", heads.Select((h, i) => El("th", ("scope", "col"), ("class", i == 0 ? null : "hs-figure"), h)))),
                    El("tbody", rows.Select(r => El("tr", r.Select((c, i) => i == 0 ? El("th", ("scope", "row"), c) : El("td", ("class", "hs-figure"), c))))))));
}
