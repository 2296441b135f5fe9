using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Xml.Linq;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Standing;

using static Homestretch.Files.Pictures.Markup;

namespace Homestretch.Files.Pictures;

/// <summary>The main picture. One column per topic: as wide as it has scored items, as high as the chance of a correct
/// answer, so that the filled area is the expected score. What the plan adds is hatched, what is left alone is pale, and the
/// edge is as soft as the standing is uncertain. A bar beside each part that has a cut score compares the sum with it.</summary>
public static class ScoreField
{
    private const double ScreenPlot = 240;
    private const double PaperPlot = 140;
    private const double ScreenRow = 24;
    private const double PaperRow = 15;
    private const double Size = 13;
    private const double SmallSize = 12;
    private const double LineHeight = 15;
    private const double AxisWidth = 44;
    private const double BarSlot = 92;
    private const double BarWidth = 34;
    private const double GroupGap = 26;
    private const int MostLabelLines = 3;
    private static readonly int[] Ticks = [0, 25, 50, 75, 100];

    /// <summary>The whole figure for a page: the picture for wide and for narrow space (the style sheet shows the one that fits),
    /// the key, and the figures as a table.</summary>
    /// <param name="report">The person's report.</param>
    /// <param name="id">Unique on the page.</param>
    public static string Html(CandidateReport report, string id = "score-field")
        => Write(Figure(report, id, Picture(report, id + "-wide", 900, ScreenPlot, "hs-wide"), Turned(report, id + "-narrow", 360, ScreenRow, "hs-narrow")));

    /// <summary>The figure for paper: the picture and the key, no table; for reading the paper on a phone, the turned picture too.</summary>
    /// <param name="report">The person's report.</param>
    /// <param name="id">Unique on the page.</param>
    /// <param name="width">Width in CSS pixels at which the letters keep their size.</param>
    public static string PrintHtml(CandidateReport report, string id = "score-field", int width = 700)
        => Write(El("figure", ("class", "hs-figure-box hs-score-field"), Picture(report, id, width, PaperPlot, "hs-print"), Turned(report, id + "-narrow", 360, ScreenRow, "hs-narrow"), Key(report, id)));

    /// <summary>The picture alone. It stands upright where every topic's name fits below its column, and is turned on its side otherwise.</summary>
    /// <param name="report">The person's report.</param>
    /// <param name="id">Unique on the page.</param>
    /// <param name="width">Width of the view box; letters are 13 units high.</param>
    public static string Svg(CandidateReport report, string id, int width) => Write(Picture(report, id, width, ScreenPlot, null));

    /// <summary>The picture turned on its side: rows from top to bottom, chances from left to right.</summary>
    public static string TurnedSvg(CandidateReport report, string id, int width) => Write(Turned(report, id, width, ScreenRow, null));

    private static XElement Figure(CandidateReport report, string id, params XElement[] pictures)
        => El("figure", ("class", "hs-figure-box hs-score-field"), pictures, Key(report, id), Table(report));

    private static XElement Picture(CandidateReport report, string id, int width, double plot, string? kind)
        => Upright(report, id, width, plot, kind) ?? Turned(report, id, width, plot == PaperPlot ? PaperRow : ScreenRow, kind);

    /// <summary>The picture with upright columns, or null where a label would have to be cut.</summary>
    private static XElement? Upright(CandidateReport report, string id, int width, double plot, string? kind)
    {
        ImmutableArray<TopicColumn> columns = TopicColumn.Of(report);
        ImmutableArray<ScoreBar> bars = ScoreBar.Of(report, columns);
        Exam exam = report.Standing.Exam;
        ScoreBar? whole = bars.FirstOrDefault(b => b.Section is null);
        double fixedWidth = AxisWidth + (bars.Length * BarSlot) + ((exam.Sections.Length - 1) * GroupGap) + 4;
        double unit = (width - fixedWidth) / exam.ScoredItems;
        if (unit <= 0)
        {
            return null;
        }

        const double top = 34;
        double bottom = top + plot;
        Paint paint = new(Id(id));
        List<XElement> ground = [];
        List<XElement> shapes = [];
        List<XElement?> labels = [];
        List<(LabelPlace Place, TopicColumn Column)> names = [];
        double x = AxisWidth;
        double lowest = bottom;
        for (int s = 0; s < exam.Sections.Length; s++)
        {
            Section section = exam.Sections[s];
            ImmutableArray<TopicColumn> group = [.. columns.Where(c => c.Topic.SectionIndex == s)];
            ScoreBar? bar = bars.FirstOrDefault(b => b.Section == s);
            double left = x;
            double right = left + (section.ScoredItems * unit);
            double end = right + (bar is null ? 0 : BarSlot);
            ground.Add(Grid(left, right, top, bottom));
            ImmutableArray<double> centres = Centres(group, left, unit);
            double room = bar is null && s + 1 < exam.Sections.Length ? GroupGap / 2 : bar is null ? 0 : 6;
            ImmutableArray<LabelPlace>? places = ColumnLabels.Place([.. group.Select(c => c.Topic.Name)], centres, left - (s == 0 ? 20 : GroupGap / 2), right + room, Size, MostLabelLines);
            if (places is null)
            {
                return null;
            }

            double at = left;
            for (int i = 0; i < group.Length; i++)
            {
                double w = group[i].Topic.Items * unit;
                shapes.Add(Column(group[i], paint, at, w, bottom, plot));
                labels.Add(ColumnFigures(group[i], at, w, bottom, plot, bar ?? whole));
                at += w;
            }

            names.AddRange(places.Value.Zip(group));

            string heading = exam.Sections.Length > 1 ? section.Name : exam.Name;
            string items = Figures.Plural(section.ScoredItems, "item");
            labels.Add(Heading(heading, items, left, 16, right - left + (bar is null ? 0 : 14)));
            if (bar is not null)
            {
                shapes.Add(Bar(bar, right + ((BarSlot - BarWidth) / 2) + 4, bottom, plot));
                labels.Add(El("text", ("class", "hs-quiet"), ("text-anchor", "middle"), ("x", right + (BarSlot / 2) + 4), ("y", 16), "expected"));
                labels.Add(BarLabel(bar, right + (BarSlot / 2) + 4, bottom, ref lowest));
                shapes.Add(CutLine(bar, left, right + ((BarSlot + BarWidth) / 2) + 10, bottom, plot));
            }

            x = end + GroupGap;
        }

        if (whole is not null)
        {
            double left = x - GroupGap;
            shapes.Add(Bar(whole, left + ((BarSlot - BarWidth) / 2) + 4, bottom, plot));
            labels.Add(BarLabel(whole, left + (BarSlot / 2) + 4, bottom, ref lowest));
            shapes.Add(CutLine(whole, AxisWidth, left + ((BarSlot + BarWidth) / 2) + 10, bottom, plot));
            labels.Add(El("text", ("class", "hs-strong"), ("text-anchor", "middle"), ("x", left + (BarSlot / 2) + 4), ("y", 16), whole.Name));
        }

        int upperLines = names.Where(n => n.Place.Tier == 0).Select(n => n.Place.Lines.Count).DefaultIfEmpty(0).Max();
        foreach ((LabelPlace place, TopicColumn column) in names)
        {
            labels.Add(Label(place, column, bottom, upperLines, ref lowest));
        }

        return Frame(report, id, width, lowest + 8, kind, paint, turned: false, Axis(top, bottom), ground, shapes, labels);
    }

    private static XElement Turned(CandidateReport report, string id, int width, double row, string? kind)
    {
        ImmutableArray<TopicColumn> columns = TopicColumn.Of(report);
        ImmutableArray<ScoreBar> bars = ScoreBar.Of(report, columns);
        Exam exam = report.Standing.Exam;
        bool beside = width >= 600;
        double labelWidth = beside ? Math.Min(width * (row == PaperRow ? 0.42 : 0.36), 26 + columns.Max(c => Lettering.Width(c.Topic.Name, Size))) : 0;
        double left = beside ? labelWidth + 14 : 1;
        double valueRoom = beside ? 62 : 1;
        double scale = width - left - valueRoom;
        double thickness = Math.Min(row * columns.Length / exam.ScoredItems, 2.6 * row / columns.Max(c => c.Topic.Items));
        Paint paint = new(Id(id));
        List<XElement> ground = [];
        List<XElement> shapes = [];
        List<XElement?> labels = [];
        double y = 0;
        for (int s = 0; s < exam.Sections.Length; s++)
        {
            Section section = exam.Sections[s];
            string heading = exam.Sections.Length > 1 ? section.Name : exam.Name;
            y += s == 0 ? 16 : 34;
            labels.Add(Heading(heading, Figures.Plural(section.ScoredItems, "item"), 0, y, width));
            y += 20;
            labels.Add(Scale(left, scale, y));
            y += 8;
            foreach (TopicColumn column in columns.Where(c => c.Topic.SectionIndex == s))
            {
                double thick = column.Topic.Items * thickness;
                List<string> lines = Lettering.Wrap(column.Topic.Name, Size, beside ? labelWidth - 18 : width - 70, beside ? 2 : 3);
                double textHeight = lines.Count * LineHeight;
                double slot = beside ? Math.Max(thick + 5, textHeight + (row == PaperRow ? 2 : 5)) : textHeight + thick + 10;
                double barTop = beside ? y + ((slot - thick) / 2) : y + textHeight + 5;
                double baseline = beside ? y + ((slot - textHeight) / 2) + 11.5 : y + 13;
                ground.Add(TurnedGrid(left, scale, barTop, barTop + thick));
                shapes.Add(Row(column, paint, left, scale, barTop, thick));
                labels.Add(RowLabel(column, lines, 0, baseline, beside ? left + scale + valueRoom : width));
                y += slot;
            }

            if (bars.FirstOrDefault(b => b.Section == s) is { } bar)
            {
                shapes.Add(TurnedBar(bar, left, scale, ref y, labels, beside));
            }
        }

        if (bars.FirstOrDefault(b => b.Section is null) is { } whole)
        {
            y += exam.Sections.Length > 1 ? 14 : 0;
            shapes.Add(TurnedBar(whole, left, scale, ref y, labels, beside));
        }

        return Frame(report, id, width, y + 6, kind, paint, turned: true, null, ground, shapes, labels);
    }

    /// <summary>A section's name, with its items where both fit.</summary>
    private static XElement Heading(string name, string items, double x, double y, double width)
    {
        bool both = Lettering.Width(name, Size, bold: true) + 8 + Lettering.Width(items, SmallSize) <= width;
        return El(
            "text",
            ("x", x),
            ("y", y),
            El("tspan", ("class", "hs-strong"), both ? name : Lettering.Shorten(name, Size, width, bold: true)),
            both ? El("tspan", ("class", "hs-quiet"), ("dx", 8), items) : null);
    }

    private static XElement Frame(
        CandidateReport report,
        string id,
        double width,
        double height,
        string? kind,
        Paint paint,
        bool turned,
        XElement? axis,
        List<XElement> ground,
        List<XElement> shapes,
        List<XElement?> labels)
    {
        string safe = Id(id);
        return El(
            "svg",
            ("id", safe),
            ("class", "hs-picture" + (kind is null ? string.Empty : " " + kind)),
            ("viewBox", $"0 0 {N(width)} {N(height)}"),
            ("role", "img"),
            ("aria-labelledby", $"{safe}-title {safe}-desc"),
            ("focusable", "false"),
            El("title", ("id", safe + "-title"), "Score field: expected score by topic"),
            El("desc", ("id", safe + "-desc"), Describe(report)),
            El(
                "defs",
                paint.FadeDefinition("weak", 0.6, turned),
                paint.FadeDefinition("borderline", 0.6, turned),
                paint.FadeDefinition("strong", 0.6, turned),
                paint.FadeDefinition("paper", 0.7, turned, backwards: true)),
            axis,
            ground,
            shapes,
            labels);
    }

    private static XElement Column(TopicColumn column, Paint paint, double x, double width, double bottom, double plot)
    {
        string hue = column.Level.Band.Word();
        double now = bottom - (column.Now * plot);
        double low = bottom - (column.Low * plot);
        double high = bottom - (column.High * plot);
        return El(
            "g",
            ("class", Classes(column, hue)),
            El("rect", ("class", "hs-now"), ("x", x), ("y", now), ("width", width), ("height", bottom - now)),
            El("rect", ("x", x), ("y", now), ("width", width), ("height", low - now), ("fill", paint.Fade("paper"))),
            El("rect", ("class", "hs-soft"), ("x", x), ("y", high), ("width", width), ("height", now - high), ("fill", paint.Fade(hue))),
            column.Added > 0
                ? Hatching.Rectangle(x, now - (column.Added * plot), width, column.Added * plot)
                : null,
            El("line", ("class", "hs-side"), ("x1", x), ("y1", now), ("x2", x), ("y2", bottom)),
            El("line", ("class", "hs-side"), ("x1", x + width), ("y1", now), ("x2", x + width), ("y2", bottom)),
            El("line", ("class", "hs-top"), ("x1", x), ("y1", now), ("x2", x + width), ("y2", now)));
    }

    /// <summary>Chance and items inside the column, clear of the cut line.</summary>
    private static XElement? ColumnFigures(TopicColumn column, double x, double width, double bottom, double plot, ScoreBar? bar)
    {
        string value = Figures.Percent(column.Level.Mean);
        string items = Figures.Plural(column.Topic.Items, "item");
        string number = column.Topic.Items.ToString(CultureInfo.InvariantCulture);
        double height = column.Now * plot;
        double baseline = bottom - height + 16;
        if (bar is not null)
        {
            double cut = bottom - ((double)bar.Cut / bar.Items * plot);
            baseline = cut > baseline - 13 && cut < baseline + 5 ? cut + 15 : baseline;
        }

        bool valueFits = Lettering.Width(value, SmallSize, bold: true) + 6 <= width && bottom - baseline > 24;
        string? within = Lettering.Width(items, SmallSize) + 6 <= width ? items : Lettering.Width(number, SmallSize) + 4 <= width ? number : null;
        return !valueFits && within is null
            ? null
            : El(
                "g",
                valueFits ? El("text", ("class", "hs-value"), ("text-anchor", "middle"), ("x", x + (width / 2)), ("y", baseline), value) : null,
                within is not null && height > 20 ? El("text", ("class", "hs-in"), ("text-anchor", "middle"), ("x", x + (width / 2)), ("y", bottom - 7), within) : null);
    }

    private static XElement Row(TopicColumn column, Paint paint, double left, double scale, double y, double thick)
    {
        string hue = column.Level.Band.Word();
        double now = column.Now * scale;
        double low = column.Low * scale;
        double high = column.High * scale;
        return El(
            "g",
            ("class", Classes(column, hue)),
            El("rect", ("class", "hs-now"), ("x", left), ("y", y), ("width", now), ("height", thick)),
            El("rect", ("x", left + low), ("y", y), ("width", now - low), ("height", thick), ("fill", paint.Fade("paper", turned: true))),
            El("rect", ("class", "hs-soft"), ("x", left + now), ("y", y), ("width", high - now), ("height", thick), ("fill", paint.Fade(hue, turned: true))),
            column.Added > 0
                ? Hatching.Rectangle(left + now, y, column.Added * scale, thick)
                : null,
            El("line", ("class", "hs-side"), ("x1", left), ("y1", y), ("x2", left + now), ("y2", y)),
            El("line", ("class", "hs-side"), ("x1", left), ("y1", y + thick), ("x2", left + now), ("y2", y + thick)),
            El("line", ("class", "hs-top"), ("x1", left + now), ("y1", y), ("x2", left + now), ("y2", y + thick)));
    }

    private static XElement RowLabel(TopicColumn column, List<string> lines, double x, double baseline, double valueEnd)
        => El(
            "g",
            BandMark.Shape(column.Level.Band, x + 6, baseline - 4.5),
            Lines(lines, x + 18, baseline, "start", "hs-name"),
            El("text", ("class", "hs-value"), ("text-anchor", "end"), ("x", valueEnd), ("y", baseline), Figures.Percent(column.Level.Mean)));

    private static XElement Label(LabelPlace place, TopicColumn column, double bottom, int upperLines, ref double lowest)
    {
        double top = bottom + (place.Tier == 0 ? 12 : 12 + (upperLines * LineHeight) + 22);
        double foot = Math.Clamp(place.Column, place.Centre - 10, place.Centre + 10);
        List<string> lines = place.Lines;
        double baseline = top + 24;
        lowest = Math.Max(lowest, baseline + ((lines.Count - 1) * LineHeight) + 4);
        return El(
            "g",
            El("path", ("class", "hs-leader"), ("fill", "none"), ("d", $"M{N(place.Column)} {N(bottom + 3)}V{N(top - 5)}L{N(foot)} {N(top)}")),
            BandMark.Shape(column.Level.Band, foot, top + 7),
            Lines(lines, place.Centre, baseline, "middle", "hs-name"));
    }

    private static XElement Lines(List<string> lines, double x, double y, string anchor, string css)
        => El("text", ("class", css), ("text-anchor", anchor), ("x", x), ("y", y), lines.Select((l, i) => El("tspan", ("x", x), ("dy", i == 0 ? 0 : LineHeight), l + (i < lines.Count - 1 && !l.EndsWith('-') ? " " : string.Empty))));

    private static XElement Bar(ScoreBar bar, double x, double bottom, double plot)
    {
        double now = bar.Now / bar.Items * plot;
        double added = Math.Max(0, ((bar.After ?? bar.Now) - bar.Now) / bar.Items * plot);
        return El(
            "g",
            ("class", "hs-score-bar"),
            El("rect", ("class", "hs-bar-ground"), ("x", x), ("y", bottom - plot), ("width", BarWidth), ("height", plot)),
            El("rect", ("class", "hs-bar-now"), ("x", x), ("y", bottom - now), ("width", BarWidth), ("height", now)),
            added > 0 ? Hatching.Rectangle(x, bottom - now - added, BarWidth, added) : null,
            El("line", ("class", "hs-bar-top"), ("x1", x), ("y1", bottom - now), ("x2", x + BarWidth), ("y2", bottom - now)));
    }

    private static XElement BarLabel(ScoreBar bar, double centre, double bottom, ref double lowest)
    {
        double y = bottom + 18;
        List<XElement> lines = [El("tspan", ("class", "hs-strong"), ("x", centre), Figures.Count(bar.Now) + " now")];
        if (bar.After is { } after)
        {
            lines.Add(El("tspan", ("x", centre), ("dy", LineHeight), " " + Figures.Count(after) + " after plan"));
        }

        lines.Add(El("tspan", ("x", centre), ("dy", LineHeight), ("class", "hs-cut-word"), $" {bar.Cut} needed"));
        lines.Add(El("tspan", ("class", "hs-quiet"), ("x", centre), ("dy", LineHeight), $" of {Figures.Plural(bar.Items, "item")}"));
        lowest = Math.Max(lowest, y + ((lines.Count - 1) * LineHeight) + 4);
        return El("text", ("class", "hs-name"), ("text-anchor", "middle"), ("x", centre), ("y", y), lines);
    }

    private static XElement CutLine(ScoreBar bar, double left, double right, double bottom, double plot)
    {
        double y = bottom - ((double)bar.Cut / bar.Items * plot);
        return El(
            "g",
            El("line", ("class", "hs-cut-across"), ("x1", left), ("y1", y), ("x2", right - BarWidth - 20), ("y2", y)),
            El("line", ("class", "hs-cut-under"), ("x1", right - BarWidth - 20), ("y1", y), ("x2", right), ("y2", y)),
            El("line", ("class", "hs-cut"), ("x1", right - BarWidth - 20), ("y1", y), ("x2", right), ("y2", y)));
    }

    private static XElement TurnedBar(ScoreBar bar, double left, double scale, ref double y, List<XElement?> labels, bool beside)
    {
        const double thick = 18;
        double now = bar.Now / bar.Items * scale;
        double added = Math.Max(0, ((bar.After ?? bar.Now) - bar.Now) / bar.Items * scale);
        StringBuilder sentence = new();
        sentence.Append(Figures.Count(bar.Now)).Append(" now");
        if (bar.After is { } after)
        {
            sentence.Append(", ").Append(Figures.Count(after)).Append(" after plan");
        }

        sentence.Append(CultureInfo.InvariantCulture, $", {bar.Cut} needed of {Figures.Plural(bar.Items, "item")}");
        string title = bar.Section is null ? bar.Name : "Expected";
        y += 10;
        double barTop;
        if (beside)
        {
            barTop = y + 16;
            labels.Add(El("text", ("class", "hs-strong"), ("x", 0), ("y", barTop + 13), bar.Section is null ? bar.Name : "Expected score"));
            labels.Add(El("text", ("class", "hs-name"), ("x", left), ("y", y + 10), sentence.ToString()));
        }
        else
        {
            barTop = y + 18;
            labels.Add(El("text", ("x", 0), ("y", y + 12), El("tspan", ("class", "hs-strong"), title + ": "), El("tspan", ("class", "hs-name"), sentence.ToString())));
        }

        y = barTop + thick + 4;
        double cut = left + ((double)bar.Cut / bar.Items * scale);
        return El(
            "g",
            ("class", "hs-score-bar"),
            El("rect", ("class", "hs-bar-ground"), ("x", left), ("y", barTop), ("width", scale), ("height", thick)),
            El("rect", ("class", "hs-bar-now"), ("x", left), ("y", barTop), ("width", now), ("height", thick)),
            added > 0 ? Hatching.Rectangle(left + now, barTop, added, thick) : null,
            El("line", ("class", "hs-bar-top"), ("x1", left + now), ("y1", barTop), ("x2", left + now), ("y2", barTop + thick)),
            El("line", ("class", "hs-cut-under"), ("x1", cut), ("y1", barTop - 4), ("x2", cut), ("y2", y)),
            El("line", ("class", "hs-cut"), ("x1", cut), ("y1", barTop - 4), ("x2", cut), ("y2", y)));
    }

    private static XElement Axis(double top, double bottom)
        => El(
            "g",
            ("class", "hs-axis"),
            Ticks.Select(p => El("text", ("text-anchor", "end"), ("x", AxisWidth - 8), ("y", bottom - (p / 100.0 * (bottom - top)) + 4), $"{p} %")));

    private static XElement Grid(double left, double right, double top, double bottom)
        => El(
            "g",
            El("rect", ("class", "hs-ground"), ("x", left), ("y", top), ("width", right - left), ("height", bottom - top)),
            Ticks.Skip(1).Select(p => El("line", ("class", "hs-grid"), ("x1", left), ("y1", bottom - (p / 100.0 * (bottom - top))), ("x2", right), ("y2", bottom - (p / 100.0 * (bottom - top))))),
            El("line", ("class", "hs-base"), ("x1", left), ("y1", bottom), ("x2", right), ("y2", bottom)));

    private static XElement TurnedGrid(double left, double scale, double top, double bottom)
        => El(
            "g",
            El("rect", ("class", "hs-ground"), ("x", left), ("y", top), ("width", scale), ("height", bottom - top)),
            Ticks.Skip(1).Select(p => El("line", ("class", "hs-grid"), ("x1", left + (p / 100.0 * scale)), ("y1", top), ("x2", left + (p / 100.0 * scale)), ("y2", bottom))),
            El("line", ("class", "hs-base"), ("x1", left), ("y1", top), ("x2", left), ("y2", bottom)));

    private static XElement Scale(double left, double scale, double y)
        => El(
            "g",
            ("class", "hs-axis"),
            Ticks.Where(p => p % 50 == 0).Select(p => El("text", ("text-anchor", p == 0 ? "start" : p == 50 ? "middle" : "end"), ("x", left + (p / 100.0 * scale)), ("y", y), $"{p} %")));

    private static string Classes(TopicColumn column, string hue)
        => $"hs-column hs-{hue}-column" + (column.LeftAlone ? " hs-alone" : string.Empty);

    private static ImmutableArray<double> Centres(ImmutableArray<TopicColumn> group, double left, double unit)
    {
        ImmutableArray<double>.Builder centres = ImmutableArray.CreateBuilder<double>(group.Length);
        double x = left;
        foreach (TopicColumn column in group)
        {
            double w = column.Topic.Items * unit;
            centres.Add(x + (w / 2));
            x += w;
        }

        return centres.ToImmutable();
    }

    private static string Describe(CandidateReport report)
    {
        ImmutableArray<TopicColumn> columns = TopicColumn.Of(report);
        StringBuilder text = new();
        text.Append("Each topic is as wide as it has scored items and as high as your chance of a correct answer, so the filled area is your expected score. ");
        foreach (ScoreBar bar in ScoreBar.Of(report, columns))
        {
            text.Append(bar.Name).Append(": ").Append(Figures.Count(bar.Now)).Append(" of ").Append(Figures.Plural(bar.Items, "item")).Append(" expected now");
            if (bar.After is { } after)
            {
                text.Append(", ").Append(Figures.Count(after)).Append(" after the plan");
            }

            text.Append(CultureInfo.InvariantCulture, $", {bar.Cut} needed. ");
        }

        foreach (TopicColumn column in columns)
        {
            text.Append(column.Topic.Name).Append(": ").Append(column.Level.Band.Word()).Append(", ").Append(Figures.Percent(column.Level.Mean)).Append(". ");
        }

        return text.ToString().TrimEnd();
    }

    private static XElement Key(CandidateReport report, string id)
    {
        Paint paint = new(Id(id) + "-key");
        BandEdges edges = report.Standing.Exam.Bands;
        List<XElement> entries =
        [
            .. new[] { Core.Standing.Band.Weak, Core.Standing.Band.Borderline, Core.Standing.Band.Strong }
                .Select(b => El("li", BandMark.Inline(b), El("span", $"{b.Word()} ({BandMark.Meaning(b, edges)})"))),
            El("li", Swatch(El("g", ("class", "hs-column hs-borderline-column"), El("rect", ("class", "hs-now"), ("x", 1), ("y", 7), ("width", 20), ("height", 9)), El("line", ("class", "hs-top"), ("x1", 1), ("y1", 7), ("x2", 21), ("y2", 7)))), El("span", "filled: expected score")),
            El(
                "li",
                Swatch(
                    El("defs", paint.FadeDefinition("borderline", 0.7, turned: false)),
                    El("rect", ("x", 1), ("y", 0), ("width", 20), ("height", 16), ("fill", paint.Fade("borderline")))),
                El("span", "soft edge: 9 times of 10 it lies within")),
        ];
        if (report.Plan is not null)
        {
            entries.Add(El("li", Swatch(Hatching.Rectangle(1, 2, 20, 12)), El("span", "hatched: the plan adds")));
            if (TopicColumn.Of(report).Any(c => c.LeftAlone))
            {
                entries.Add(El("li", Swatch(El("g", ("class", "hs-column hs-borderline-column hs-alone"), El("rect", ("class", "hs-now"), ("x", 1), ("y", 3), ("width", 20), ("height", 12)))), El("span", "pale: left alone")));
            }
        }

        entries.Add(El("li", Swatch(El("line", ("class", "hs-cut"), ("x1", 0), ("y1", 8), ("x2", 22), ("y2", 8))), El("span", "cut score")));
        return El("figcaption", El("ul", ("class", "hs-key"), entries));
    }

    private static XElement Swatch(params XElement[] content)
        => El("svg", ("class", "hs-swatch"), ("viewBox", "0 0 22 16"), ("width", 22), ("height", 16), ("aria-hidden", "true"), ("focusable", "false"), content);

    private static XElement Table(CandidateReport report)
    {
        bool plan = report.Plan is not null;
        string[] heads = ["Topic", "Items", "Standing", "Correct now", "9 times of 10 within", .. plan ? new[] { "After the plan", "Study time" } : []];
        return DataTable.Of(
            "Expected score by topic",
            heads,
            TopicColumn.Of(report).Select(c => (string[])
            [
                c.Topic.Name,
                c.Topic.Items.ToString(CultureInfo.InvariantCulture),
                c.Level.Band.Word() + (c.Level.Settled ? string.Empty : ", unsettled"),
                Figures.Percent(c.Level.Mean),
                Figures.PercentRange(c.Level.Low, c.Level.High),
                .. plan ? new[] { Figures.Percent(c.After!.Value), c.LeftAlone ? "left alone" : Figures.Duration(c.Minutes!.Value) } : [],
            ]));
    }
}
