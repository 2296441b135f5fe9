using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Xml.Linq;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;

using static Homestretch.Files.Pictures.Markup;

namespace Homestretch.Files.Pictures;

/// <summary>How likely each number of correct answers is, with the cut score: one picture per section where every section
/// decides, one for the whole exam otherwise (and one per section with a minimum, where there are minimums).</summary>
public static class ScoreDistribution
{
    private const double Width = 380;
    private const double Left = 4;
    private const double Top = 44;
    private const double PlotHeight = 104;
    private const double Negligible = 0.0005;

    /// <summary>All pictures the exam's rule calls for, with their figures as tables.</summary>
    /// <param name="forecast">What to expect.</param>
    /// <param name="id">Unique on the page; each picture appends its number.</param>
    public static string Html(Forecast forecast, string id = "score-distribution")
        => Write(El("div", ("class", "hs-distributions"), Parts(forecast).Select((p, i) => Figure(p, string.Create(CultureInfo.InvariantCulture, $"{id}-{i + 1}")))));

    /// <summary>One picture: chances of 0, 1, ... N correct answers, the part from the cut score up apart from the part below it.</summary>
    /// <param name="name">What it is the distribution of.</param>
    /// <param name="distribution">Chance of exactly 0, 1, ... N; sums to 1.</param>
    /// <param name="cut">Correct answers needed, 0 to N + 1.</param>
    /// <param name="id">Unique on the page.</param>
    public static string Svg(string name, ImmutableArray<double> distribution, int cut, string id)
        => Write(Draw(new Part(name, distribution, cut), id));

    private static IEnumerable<Part> Parts(Forecast forecast)
    {
        IEnumerable<Part> sections = forecast.Sections.Where(s => s.Cut is not null).Select(s => new Part(s.Section.Name, s.Distribution, s.Cut!.Value));
        Part whole = new("Whole exam", forecast.Distribution, forecast.Cut);
        return forecast.Exam.Rule switch
        {
            OverallRule.EverySection => sections,
            OverallRule.Total => [whole],
            _ => sections.Prepend(whole),
        };
    }

    private static XElement Figure(Part part, string id)
        => El(
            "figure",
            ("class", "hs-figure-box hs-distribution"),
            El("figcaption", El("span", ("class", "hs-strong"), part.Name), El("span", ("class", "hs-quiet"), $" {Figures.Plural(part.Distribution.Length - 1, "item")}, {part.Cut} correct needed")),
            Draw(part, id),
            DataTable.Of($"Correct answers, {part.Name}", ["Correct answers", "Chance", "Chance of at least as many"], Rows(part)));

    private static XElement Draw(Part part, string id)
    {
        (int from, int to) = Range(part);
        double step = (Width - (2 * Left)) / (to - from + 1);
        double bottom = Top + PlotHeight;
        double peak = part.Distribution.Max();
        double cutX = Left + (Math.Clamp(part.Cut - from, 0, to - from + 1) * step);
        Paint paint = new(Id(id));
        string safe = Id(id);
        double pass = part.Pass;
        double labelHalf = Lettering.Width($"cut score {part.Cut}", 12, bold: true) / 2;
        return El(
            "svg",
            ("id", safe),
            ("class", "hs-picture"),
            ("viewBox", $"0 0 {N(Width)} {N(bottom + 36)}"),
            ("role", "img"),
            ("aria-labelledby", $"{safe}-title {safe}-desc"),
            ("focusable", "false"),
            El("title", ("id", safe + "-title"), $"Correct answers to expect: {part.Name}"),
            El("desc", ("id", safe + "-desc"), $"{Figures.Percent(pass)} of the area lies at or above the cut score of {part.Cut} correct answers, {Figures.Percent(1 - pass)} below it. Nine times of ten the score lies between {CountQuantile.Of(part.Distribution, 0.05)} and {CountQuantile.Of(part.Distribution, 0.95)}."),
            El("defs", paint.DotsDefinition()),
            Area(part, from, Math.Min(part.Cut - 1, to), from, step, bottom, peak, "hs-short", paint.Dots),
            Area(part, Math.Max(part.Cut, from), to, from, step, bottom, peak, "hs-reached", null),
            El("line", ("class", "hs-base"), ("x1", Left), ("y1", bottom), ("x2", Width - Left), ("y2", bottom)),
            TickValues(from, to).Select(t => El("g", El("line", ("class", "hs-base"), ("x1", Left + ((t - from + 0.5) * step)), ("y1", bottom), ("x2", Left + ((t - from + 0.5) * step)), ("y2", bottom + 4)), El("text", ("class", "hs-quiet"), ("text-anchor", "middle"), ("x", Math.Clamp(Left + ((t - from + 0.5) * step), 10, Width - 10)), ("y", bottom + 17), t.ToString(CultureInfo.InvariantCulture)))),
            El("text", ("class", "hs-quiet"), ("text-anchor", "middle"), ("x", Width / 2), ("y", bottom + 32), "correct answers"),
            El("line", ("class", "hs-cut-under"), ("x1", cutX), ("y1", Top - 8), ("x2", cutX), ("y2", bottom)),
            El("line", ("class", "hs-cut"), ("x1", cutX), ("y1", Top - 8), ("x2", cutX), ("y2", bottom)),
            El("text", ("class", "hs-value"), ("text-anchor", "middle"), ("x", Math.Clamp(cutX, labelHalf, Width - labelHalf)), ("y", Top - 13), $"cut score {part.Cut}"),
            El("text", ("class", "hs-name"), ("x", Left), ("y", 13), "short of it: ", El("tspan", ("class", "hs-strong"), Figures.Percent(1 - pass))),
            El("text", ("class", "hs-name"), ("text-anchor", "end"), ("x", Width - Left), ("y", 13), "reached: ", El("tspan", ("class", "hs-strong"), Figures.Percent(pass))));
    }

    /// <summary>The outline of bars from one count to another, as one shape.</summary>
    private static XElement? Area(Part part, int first, int last, int origin, double step, double bottom, double peak, string css, string? fill)
    {
        if (last < first)
        {
            return null;
        }

        StringBuilder path = new();
        path.Append(CultureInfo.InvariantCulture, $"M{N(Left + ((first - origin) * step))} {N(bottom)}");
        for (int i = first; i <= last; i++)
        {
            path.Append(CultureInfo.InvariantCulture, $"V{N(bottom - (part.Distribution[i] / peak * PlotHeight))}H{N(Left + ((i - origin + 1) * step))}");
        }

        path.Append(CultureInfo.InvariantCulture, $"V{N(bottom)}Z");
        return El("path", ("class", css), ("fill", fill), ("d", path.ToString()));
    }

    /// <summary>The counts worth showing: those with a chance that can be seen, and the cut score.</summary>
    private static (int From, int To) Range(Part part)
    {
        int from = 0;
        int to = part.Distribution.Length - 1;
        while (from < to && part.Distribution[from] < Negligible)
        {
            from++;
        }

        while (to > from && part.Distribution[to] < Negligible)
        {
            to--;
        }

        return (Math.Max(0, Math.Min(from, part.Cut - 3)), Math.Min(part.Distribution.Length - 1, Math.Max(to, part.Cut + 2)));
    }

    private static IEnumerable<int> TickValues(int from, int to)
    {
        int[] steps = [1, 2, 5, 10, 20, 50, 100];
        int step = steps.First(s => (to - from) / s <= 9 || s == steps[^1]);
        for (int t = (from + step - 1) / step * step; t <= to; t += step)
        {
            yield return t;
        }
    }

    private static IEnumerable<string[]> Rows(Part part)
    {
        (int from, int to) = Range(part);
        double above = part.Distribution.Skip(from).Sum();
        for (int i = from; i <= to; i++)
        {
            yield return
            [
                i.ToString(CultureInfo.InvariantCulture) + (i == part.Cut ? " (cut score)" : string.Empty),
                Figures.Percent(part.Distribution[i]),
                Figures.Percent(above),
            ];
            above -= part.Distribution[i];
        }
    }

    private sealed record Part(string Name, ImmutableArray<double> Distribution, int Cut)
    {
        public double Pass => Math.Clamp(Distribution.Skip(Cut).Sum(), 0, 1);
    }
}
