using System.Collections.Immutable;
using System.Globalization;
using System.Xml.Linq;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Measurement;

using static Homestretch.Files.Pictures.Markup;

namespace Homestretch.Files.Pictures;

/// <summary>Where to be on the clock on exam day: by which minute every tenth item should be done.</summary>
public static class PaceTable
{
    // More marks than these need the whole width of a sheet.
    private const int MostBeside = 10;

    /// <summary>Whether there is anything to show: some section has a time limit.</summary>
    public static bool Applies(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return exam.Sections.Any(s => s.Minutes is not null);
    }

    /// <summary>Whether the person gets through in time, where that is known, and a table for each section with a time limit.</summary>
    /// <param name="report">The person's report; its exam has a time limit.</param>
    /// <param name="id">Unique on the page.</param>
    public static string Html(CandidateReport report, string id = "pace")
    {
        ArgumentNullException.ThrowIfNull(report);
        ImmutableArray<Section> sections = [.. report.Standing.Exam.Sections.Where(s => s.Minutes is not null)];
        bool guessing = sections.Any(s => s.Options > 0);
        return Write(El(
            "div",
            ("id", Id(id)),
            ("class", "hs-pace"),
            El("p", ("class", "hs-pace-words"), Lead(report)),
            El("div", ("class", "hs-clocks"), sections.Select(s => Clock(s, report.Candidate))),
            El(
                "p",
                ("class", "hs-note"),
                string.Create(CultureInfo.InvariantCulture, $"A twentieth of the time is kept back for a last look.{(guessing ? " With time nearly up, mark something on every item left: a guess may be right." : "")}"))));
    }

    /// <summary>Whether the person gets through in time; where the pace is not known, what is allowed.</summary>
    /// <param name="report">The person's report; its exam has a time limit.</param>
    public static string Lead(CandidateReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        return report.Forecast.Pace?.Sentence
            ?? $"The exam allows {string.Join(" and ", report.Standing.Exam.Sections.Where(s => s.Minutes is not null).Select(s => $"{Seconds(s)} seconds an item in {s.Name}"))}.";
    }

    // Items run from left to right like time; two sections stand side by side on paper.
    private static XElement Clock(Section section, string candidate)
    {
        ImmutableArray<PaceMark> marks = Pace.Marks(section);
        string name = string.Create(CultureInfo.InvariantCulture, $"{section.Name}: {Figures.Plural(Items(section), "item")}, {section.Minutes} minutes");
        return El(
            "div",
            ("class", marks.Length > MostBeside ? "hs-scroll hs-long" : "hs-scroll"),
            ("tabindex", "0"),
            ("role", "region"),
            ("aria-label", $"{name}, {candidate}"),
            El(
                "table",
                ("class", "hs-table hs-clock"),
                El("caption", name),
                El("thead", El("tr", El("th", ("scope", "row"), "item done"), marks.Select(m => El("th", ("scope", "col"), Text(m.Item))))),
                El("tbody", Row("by minute", marks.Select(m => m.MinutesUsed)), Row("minutes left", marks.Select(m => m.MinutesLeft)))));
    }

    private static XElement Row(string name, IEnumerable<int> minutes)
        => El("tr", El("th", ("scope", "row"), name), minutes.Select(m => El("td", Text(m))));

    private static int Items(Section section) => section.ScoredItems + section.UnscoredItems;

    private static string Seconds(Section section) => Figures.Count(section.Minutes!.Value * 60.0 / Items(section));

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);
}
