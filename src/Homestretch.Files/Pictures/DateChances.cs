using System.Collections.Immutable;
using System.Xml.Linq;

using Homestretch.Core.Deciding;

using NodaTime;

using static Homestretch.Files.Pictures.Markup;

namespace Homestretch.Files.Pictures;

/// <summary>The pass chance against the date of the exam: one mark for each date that was compared, the booked one ringed.</summary>
public static class DateChances
{
    private const double Width = 360;
    private const double Left = 44;
    private const double Right = Width - 24;
    private const double Top = 26;
    private const double Bottom = 196;
    private const double Height = Bottom + 40;
    private const double Edge = 16;
    private const double Ring = 9;
    private const double Dot = 4.5;
    private const double LabelWidth = 44;

    private static readonly ChanceAxis _axis = new(Left, Right, Top, Bottom);

    /// <summary>The picture, a sentence, and the figures as a table.</summary>
    /// <param name="advice">The dates, at least one.</param>
    /// <param name="id">Unique on the page.</param>
    public static string Html(DateAdvice advice, string id = "date-chances")
    {
        ImmutableArray<DateOption> options = InOrder(advice);
        return Write(El(
            "figure",
            ("class", "hs-figure-box hs-dates"),
            Draw(advice, options, id),
            El("figcaption", Sentence(advice) + $" Solid: with the best plan up to that date. Dotted: without more study. Ring: the booked date.{(options.Any(o => o.Barred is not null) ? " Crosses: dates that the rules do not allow." : string.Empty)} Line of dashes: the pass chance that is good enough."),
            DataTable.Of(
                "Pass chance by exam date",
                ["Date", "With the best plan", "Without study", "Note"],
                options.Select(o => new[] { Dates.FullDay(o.Date), Figures.Percent(o.PassChance), Figures.Percent(o.NoStudy), Note(advice, o) }))));
    }

    /// <summary>"On the booked Wed 16 Dec the pass chance is 62 % with the best plan; of the dates compared Wed 6 Jan has the highest, 71 %."</summary>
    /// <param name="advice">The dates, at least one.</param>
    public static string Sentence(DateAdvice advice)
    {
        ImmutableArray<DateOption> options = InOrder(advice);
        DateOption[] allowed = [.. options.Where(o => o.Barred is null)];
        string booked = options.FirstOrDefault(o => o.Booked) is { } now ? $"On the booked {Dates.Day(now.Date)} the pass chance is {Figures.Percent(now.PassChance)} with the best plan" : "No date is booked";
        if (allowed.Length == 0)
        {
            return booked + "; none of the dates compared is allowed.";
        }

        // Of equal figures, as they are shown, the earlier date.
        DateOption highest = allowed.MaxBy(o => (Math.Round(o.PassChance, 2), -o.Date.ToDateTimeUnspecified().Ticks))!;
        return highest.Booked
            ? booked + "; no later date has a higher one."
            : booked + $"; of the dates compared {Dates.Day(highest.Date)} has the highest, {Figures.Percent(highest.PassChance)}.";
    }

    private static ImmutableArray<DateOption> InOrder(DateAdvice advice) => [.. advice.Options.OrderBy(o => o.Date)];

    private static string Note(DateAdvice advice, DateOption option)
        => string.Join("; ", new[] { option.Booked ? "booked" : null, option == advice.Best ? "what the figures speak for" : null, option.Barred }.OfType<string>());

    private static XElement Draw(DateAdvice advice, ImmutableArray<DateOption> options, string id)
    {
        string safe = Id(id);
        double[] x = Places(options);
        return El(
            "svg",
            ("id", safe),
            ("class", "hs-picture"),
            ("viewBox", $"0 0 {N(Width)} {N(Height)}"),
            ("role", "img"),
            ("aria-labelledby", $"{safe}-title {safe}-desc"),
            ("focusable", "false"),
            El("title", ("id", safe + "-title"), "Pass chance by exam date"),
            El("desc", ("id", safe + "-desc"), Sentence(advice)),
            _axis.Lines(),
            El("line", ("class", "hs-dates-target"), ("x1", Left), ("y1", _axis.Y(advice.Terms.Target)), ("x2", Right), ("y2", _axis.Y(advice.Terms.Target))),
            options.Length < 2 ? null : El("path", ("class", "hs-history-bare"), ("d", Path(x, options, o => o.NoStudy))),
            options.Length < 2 ? null : El("path", ("class", "hs-history-plan"), ("d", Path(x, options, o => o.PassChance))),
            options.SelectMany((o, i) => Mark(o, x[i], _axis.Y(advice.Terms.Target))),
            Labels(options, x));
    }

    private static IEnumerable<XElement> Mark(DateOption option, double x, double target)
    {
        double y = _axis.Y(option.PassChance);
        if (option.Booked)
        {
            yield return El("circle", ("class", "hs-dates-ring"), ("cx", x), ("cy", y), ("r", Ring));
        }

        if (option.Barred is null)
        {
            yield return El("circle", ("class", "hs-history-mark"), ("cx", x), ("cy", y), ("r", Dot));
        }
        else
        {
            yield return El("path", ("class", "hs-dates-barred"), ("d", $"M {N(x - Dot)} {N(y - Dot)} L {N(x + Dot)} {N(y + Dot)} M {N(x - Dot)} {N(y + Dot)} L {N(x + Dot)} {N(y - Dot)}"));
        }

        double above = y - Ring - 4;
        yield return El("text", ("class", "hs-history-number"), ("text-anchor", "middle"), ("x", x), ("y", above < Top - 8 || (target < above + 3 && target > above - 12) ? y + Ring + 14 : above), Figures.Percent(option.PassChance));
    }

    // Where dates stand close, only some are named, the booked one always; the table has all.
    private static IEnumerable<XElement> Labels(ImmutableArray<DateOption> options, double[] x)
    {
        List<double> taken = [];
        foreach (int i in Enumerable.Range(0, options.Length).OrderByDescending(i => options[i].Booked))
        {
            if (taken.TrueForAll(t => Math.Abs(t - x[i]) >= LabelWidth))
            {
                taken.Add(x[i]);
                yield return El("text", ("class", "hs-quiet"), ("text-anchor", "middle"), ("x", x[i]), ("y", Bottom + 18), Dates.DayOfMonth(options[i].Date));
                if (options[i].Booked)
                {
                    yield return El("text", ("class", "hs-quiet"), ("text-anchor", "middle"), ("x", x[i]), ("y", Bottom + 34), "booked");
                }
            }
        }
    }

    // By date, so that a month is longer than a week; a single date stands in the middle.
    private static double[] Places(ImmutableArray<DateOption> options)
    {
        int span = Period.DaysBetween(options[0].Date, options[^1].Date);
        return [.. options.Select(o => span == 0
            ? (Left + Right) / 2
            : Left + Edge + ((Right - Left - (2 * Edge)) * Period.DaysBetween(options[0].Date, o.Date) / span))];
    }

    private static string Path(double[] x, ImmutableArray<DateOption> options, Func<DateOption, double> chance)
        => string.Join(' ', options.Select((o, i) => $"{(i == 0 ? 'M' : 'L')} {N(x[i])} {N(_axis.Y(chance(o)))}"));
}
