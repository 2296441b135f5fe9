using System.Xml.Linq;

using Homestretch.Core.Planning;

using static Homestretch.Files.Pictures.Markup;

namespace Homestretch.Files.Pictures;

/// <summary>The chance of passing as a figure, as a natural frequency and as ten marks.</summary>
public static class PassChance
{
    /// <summary>Pass chance now, and after the plan where there is one, with all policies as a table.</summary>
    /// <param name="report">The person's report.</param>
    /// <param name="id">Unique on the page.</param>
    public static string Html(CandidateReport report, string id = "pass-chance")
    {
        double now = report.Forecast.PassChance;
        double? after = report.Plan is { Blocks.IsEmpty: false } plan ? plan.Outcome(plan.Chosen).PassChance : null;
        return Write(El(
            "div",
            ("class", "hs-pass"),
            El(
                "div",
                ("class", "hs-pass-figures"),
                Figure(now, "now"),
                after is { } then ? Figure(then, "after the plan") : null),
            Draw(now, after, id),
            El("p", ("class", "hs-pass-words"), Sentence(now, after)),
            report.Plan is null ? null : Table(report.Plan)));
    }

    /// <summary>Ten marks: filled for a pass now, hatched for what the plan adds, open for the rest.</summary>
    /// <param name="now">Pass chance now, 0 to 1.</param>
    /// <param name="after">Pass chance after the plan, or null.</param>
    /// <param name="id">Unique on the page.</param>
    public static string Svg(double now, double? after, string id) => Write(Draw(now, after, id));

    /// <summary>"About 5 of 10 people in your position pass as things stand; with this plan, about 7 of 10."</summary>
    /// <param name="now">Pass chance now, 0 to 1.</param>
    /// <param name="after">Pass chance after the plan, or null.</param>
    public static string Sentence(double now, double? after)
    {
        // Two frequencies are only compared rightly when they are of the same number of people.
        bool hundred = Figures.IsNearEnd(now) || (after is { } end && Figures.IsNearEnd(end));
        string before = hundred ? Figures.OutOfHundred(now) : Figures.OutOf(now);
        string first = Capital(before) + " people in your position pass";
        if (after is not { } chance)
        {
            return first + ".";
        }

        string then = hundred ? Figures.OutOfHundred(chance) : Figures.OutOf(chance);
        return then == before ? first + ", with this plan or without it." : $"{first} as things stand; with this plan, {then}.";
    }

    /// <summary>A policy in words a candidate understands.</summary>
    public static string Name(Policy policy) => policy switch
    {
        Policy.None => "no study from here on",
        Policy.PracticeOrder => "practice order",
        _ => "optimised",
    };

    /// <summary>"Practice order", or "This plan: practice order" for the policy whose blocks the plan holds.</summary>
    internal static string Row(StudyPlan plan, Policy policy)
        => policy == plan.Chosen ? "This plan: " + Name(policy) : Capital(Name(policy));

    internal static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];

    private static XElement Figure(double chance, string when)
        => El("p", ("class", "hs-pass-figure"), El("span", ("class", "hs-big"), Figures.Percent(chance)), " ", El("span", ("class", "hs-quiet"), when));

    internal static XElement Draw(double now, double? after, string id)
    {
        string safe = Id(id);
        int filled = Figures.Tenths(now);
        int reached = after is { } then ? Math.Max(filled, Figures.Tenths(then)) : filled;
        return El(
            "svg",
            ("id", safe),
            ("class", "hs-picture hs-tens"),
            ("viewBox", "0 0 260 28"),
            ("role", "img"),
            ("aria-labelledby", $"{safe}-title {safe}-desc"),
            ("focusable", "false"),
            El("title", ("id", safe + "-title"), $"Pass chance {Figures.Percent(now)}" + (after is { } a ? $", {Figures.Percent(a)} after the plan" : string.Empty)),
            El("desc", ("id", safe + "-desc"), Sentence(now, after)),
            Enumerable.Range(0, 10).Select(i => i >= filled && i < reached
                ? Hatching.Disc(14 + (i * 25.8), 14, 10)
                : El("circle", ("class", i < filled ? "hs-ten hs-ten-now" : "hs-ten"), ("cx", 14 + (i * 25.8)), ("cy", 14), ("r", 10))));
    }

    private static XElement Table(StudyPlan plan)
        => DataTable.Of(
            "Pass chance with and without a plan",
            ["Plan", "Pass chance", "Expected correct", "Study time"],
            plan.Policies.Select(p => new[]
            {
                Row(plan, p.Policy),
                Figures.Percent(p.PassChance),
                Figures.Count(p.ExpectedCorrect),
                Figures.Duration(p.Minutes),
            }));
}
