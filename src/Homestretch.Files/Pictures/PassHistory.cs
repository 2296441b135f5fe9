using System.Collections.Immutable;
using System.Globalization;
using System.Xml.Linq;

using static Homestretch.Files.Pictures.Markup;

namespace Homestretch.Files.Pictures;

/// <summary>How the pass chance has moved: a step at every plan, with what had just happened.</summary>
public static class PassHistory
{
    private const double Width = 360;
    private const double Left = 44;
    private const double Right = Width - 14;
    private const double Top = 14;
    private const double Bottom = 190;
    private const double Height = Bottom + 26;
    private const double NumberGap = 15;
    private const int MostPrinted = 6;

    private static readonly ChanceAxis _axis = new(Left, Right, Top, Bottom);

    /// <summary>The picture, a sentence, and the figures as a table.</summary>
    /// <param name="moments">Oldest first; at least one.</param>
    /// <param name="id">Unique on the page.</param>
    public static string Html(ImmutableArray<PassMoment> moments, string id = "pass-history")
        => Write(El(
            "figure",
            ("class", "hs-figure-box hs-history"),
            Draw(moments, id),
            El("figcaption", Sentence(moments) + " Solid: with the plan of that time. Dotted: without more study from then on. Numbers: what had just happened, in the table."),
            DataTable.Of(
                "Pass chance over time",
                ["When", "With the plan", "Without study", "What had happened"],
                moments.Select((m, i) => new[]
                {
                    string.Create(CultureInfo.InvariantCulture, $"{i + 1}. {Dates.Day(m.At.Date)}, {Dates.Time(m.At.TimeOfDay)}"),
                    Figures.Percent(m.WithPlan),
                    Figures.Percent(m.WithoutStudy),
                    m.Event,
                }))));

    /// <summary>The picture for paper, with what had happened as a list.</summary>
    /// <param name="moments">Oldest first; at least one.</param>
    /// <param name="id">Unique on the page.</param>
    public static string PrintHtml(ImmutableArray<PassMoment> moments, string id = "pass-history")
    {
        int first = Math.Max(0, moments.Length - MostPrinted);
        return Write(El(
            "figure",
            ("class", "hs-figure-box hs-history"),
            Draw(moments, id),
            El("figcaption", Sentence(moments) + " Solid: with the plan of that time. Dotted: without more study from then on."),
            El(
                "ol",
                ("class", "hs-events"),
                ("start", first + 1),
                moments.Skip(first).Select(m => El("li", $"{Dates.Day(m.At.Date)}, {Figures.Percent(m.WithPlan)}: {m.Event}")))));
    }

    /// <summary>"The pass chance with the plan went from 62 % on Wed 25 Nov to 71 % on Mon 30 Nov."</summary>
    /// <param name="moments">Oldest first; at least one.</param>
    public static string Sentence(ImmutableArray<PassMoment> moments)
    {
        PassMoment first = moments[0];
        PassMoment last = moments[^1];
        string then = Figures.Percent(first.WithPlan);
        string now = Figures.Percent(last.WithPlan);
        return moments.Length == 1 ? $"The pass chance with the first plan is {now}."
            : first.At.Date == last.At.Date && then != now ? $"The pass chance with the plan went from {then} to {now} on {Dates.Day(last.At.Date)}."
            : then == now ? $"The pass chance with the plan is {now}, as on {Dates.Day(first.At.Date)}."
            : $"The pass chance with the plan went from {then} on {Dates.Day(first.At.Date)} to {now} on {Dates.Day(last.At.Date)}.";
    }

    private static XElement Draw(ImmutableArray<PassMoment> moments, string id)
    {
        string safe = Id(id);
        double[] x = Places(moments);
        return El(
            "svg",
            ("id", safe),
            ("class", "hs-picture"),
            ("viewBox", $"0 0 {N(Width)} {N(Height)}"),
            ("role", "img"),
            ("aria-labelledby", $"{safe}-title {safe}-desc"),
            ("focusable", "false"),
            El("title", ("id", safe + "-title"), "Pass chance over time"),
            El("desc", ("id", safe + "-desc"), Sentence(moments)),
            _axis.Lines(),
            El("path", ("class", "hs-history-bare"), ("d", Path(x, moments, m => m.WithoutStudy))),
            El("path", ("class", "hs-history-plan"), ("d", Path(x, moments, m => m.WithPlan))),
            moments.Select((m, i) => El("circle", ("class", "hs-history-mark"), ("cx", x[i]), ("cy", _axis.Y(m.WithPlan)), ("r", 4))),
            Numbers(x, moments),
            El("text", ("class", "hs-quiet"), ("x", Left), ("y", Height - 4), Dates.DayOfMonth(moments[0].At.Date)),
            moments[^1].At.Date == moments[0].At.Date ? null : El("text", ("class", "hs-quiet"), ("text-anchor", "end"), ("x", Right), ("y", Height - 4), Dates.DayOfMonth(moments[^1].At.Date)));
    }

    // By time, so that a quiet week is long; a single moment stands at the left.
    private static double[] Places(ImmutableArray<PassMoment> moments)
    {
        double span = Ticks(moments[^1]) - Ticks(moments[0]);
        return [.. moments.Select(m => span <= 0 ? Left + 8 : Left + 8 + ((Right - Left - 16) * (Ticks(m) - Ticks(moments[0])) / span))];
    }

    private static double Ticks(PassMoment moment) => moment.At.InUtc().ToInstant().ToUnixTimeTicks();

    // Where marks stand close, only some have their number, the last one always; the table has all.
    private static IEnumerable<XElement> Numbers(double[] x, ImmutableArray<PassMoment> moments)
    {
        double next = double.PositiveInfinity;
        for (int i = x.Length - 1; i >= 0; i--)
        {
            if (next - x[i] >= NumberGap)
            {
                next = x[i];
                double above = _axis.Y(moments[i].WithPlan) - 9;
                yield return El(
                    "text", ("class", "hs-history-number"), ("text-anchor", "middle"), ("x", x[i]), ("y", above < Top + 8 ? above + 24 : above), (i + 1).ToString(CultureInfo.InvariantCulture));
            }
        }
    }

    private static string Path(double[] x, ImmutableArray<PassMoment> moments, Func<PassMoment, double> chance)
    {
        string path = $"M {N(x[0])} {N(_axis.Y(chance(moments[0])))}";
        for (int i = 1; i < x.Length; i++)
        {
            path += $" H {N(x[i])} V {N(_axis.Y(chance(moments[i])))}";
        }

        return path + $" H {N(Right)}";
    }
}
