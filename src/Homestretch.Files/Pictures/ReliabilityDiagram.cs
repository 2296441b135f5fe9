using System.Globalization;
using System.Xml.Linq;

using Homestretch.Core.Calibration;

using static Homestretch.Files.Pictures.Markup;

namespace Homestretch.Files.Pictures;

/// <summary>How well pass chances held: for each tenth of the scale the share that passed against the pass chance forecast, and below it how many forecasts there were.
/// Points on the diagonal came true as forecast.</summary>
public static class ReliabilityDiagram
{
    private const double Width = 440;
    private const double Left = 58;
    private const double Size = 352;
    private const double Top = 66;
    private const double Bottom = Top + Size;
    private const double HistogramTop = Bottom + 52;
    private const double HistogramHeight = 56;
    private const double HistogramBottom = HistogramTop + HistogramHeight;
    private const double Height = HistogramBottom + 30;
    private const double SmallestPoint = 3;
    private const double LargestPoint = 8;
    private const double Cap = 3;
    private const int Steps = 5;

    /// <summary>The picture, to stand in a page.</summary>
    /// <param name="report">What to show.</param>
    /// <param name="id">Unique on the page.</param>
    public static string Svg(CalibrationReport report, string id = "reliability") => Write(Draw(report, id));

    /// <summary>The picture as an SVG file of its own.</summary>
    /// <param name="report">What to show.</param>
    public static string File(CalibrationReport report) => PictureFile.Svg(Draw(report, "reliability"), 2 * Width);

    private static XElement Draw(CalibrationReport report, string id)
    {
        string safe = Id(id);
        CalibrationTable table = report.Table;
        int most = table.Bins.Max(b => b.Count);
        return El(
            "svg",
            ("id", safe),
            ("class", "hs-picture"),
            ("viewBox", $"0 0 {N(Width)} {N(Height)}"),
            ("role", "img"),
            ("aria-labelledby", $"{safe}-title {safe}-desc"),
            ("focusable", "false"),
            El("title", ("id", safe + "-title"), $"Pass chances and what became of them: {report.Exam.Name}, {report.Test}"),
            El("desc", ("id", safe + "-desc"), $"{report.Findings[0]} {string.Join(" ", table.Bins.Select(Sentence))}"),
            Lettering.Wrap(report.Findings[0], 14, Width - 8, 3, bold: true).Select((line, i) => El("text", ("class", "hs-strong"), ("x", 4), ("y", 15 + (18 * i)), line)),
            Axes(),
            El("line", ("class", "hs-as-forecast"), ("x1", X(0)), ("y1", Y(0)), ("x2", X(1)), ("y2", Y(1))),
            El("text", ("class", "hs-quiet"), ("x", Left + 10), ("y", Top + 18), "more passed than forecast"),
            El("text", ("class", "hs-quiet"), ("text-anchor", "end"), ("x", Left + Size - 10), ("y", Bottom - 10), "fewer passed than forecast"),
            table.Bins.Select(b => Point(b, most)),
            El("text", ("class", "hs-quiet"), ("text-anchor", "middle"), ("x", Left + (Size / 2)), ("y", Bottom + 34), "pass chance forecast"),
            El("text", ("class", "hs-quiet"), ("text-anchor", "middle"), ("x", 14), ("y", Top + (Size / 2)), ("transform", $"rotate(-90 14 {N(Top + (Size / 2))})"), "share that passed, with its 90 % interval"),
            table.Bins.Select(b => Bar(b, most)),
            El("line", ("class", "hs-base"), ("x1", Left), ("y1", HistogramBottom), ("x2", Left + Size), ("y2", HistogramBottom)),
            El("text", ("class", "hs-quiet"), ("text-anchor", "middle"), ("x", Left + (Size / 2)), ("y", HistogramBottom + 18), "number of forecasts in each tenth"));
    }

    private static IEnumerable<XElement> Axes()
    {
        for (int i = 0; i <= Steps; i++)
        {
            double share = (double)i / Steps;
            string css = i == 0 ? "hs-base" : "hs-grid";
            string words = string.Create(CultureInfo.InvariantCulture, $"{share * 100:0} %");
            yield return El("line", ("class", css), ("x1", X(0)), ("y1", Y(share)), ("x2", X(1)), ("y2", Y(share)));
            yield return El("line", ("class", css), ("x1", X(share)), ("y1", Y(0)), ("x2", X(share)), ("y2", Y(1)));
            yield return El("text", ("class", "hs-quiet"), ("text-anchor", "end"), ("x", Left - 7), ("y", Y(share) + 4), words);
            yield return El("text", ("class", "hs-quiet"), ("text-anchor", "middle"), ("x", X(share)), ("y", Bottom + 17), words);
        }
    }

    private static XElement Point(CalibrationBin bin, int most)
    {
        double x = X(bin.MeanForecast);
        double low = Y(bin.Interval.Low);
        double high = Y(bin.Interval.High);
        return El(
            "g",
            ("class", "hs-tenth"),
            El("line", ("class", "hs-interval"), ("x1", x), ("y1", low), ("x2", x), ("y2", high)),
            El("line", ("class", "hs-interval"), ("x1", x - Cap), ("y1", low), ("x2", x + Cap), ("y2", low)),
            El("line", ("class", "hs-interval"), ("x1", x - Cap), ("y1", high), ("x2", x + Cap), ("y2", high)),
            El("circle", ("class", "hs-point"), ("cx", x), ("cy", Y(bin.Observed)), ("r", SmallestPoint + ((LargestPoint - SmallestPoint) * Math.Sqrt((double)bin.Count / most)))));
    }

    private static XElement Bar(CalibrationBin bin, int most)
    {
        double height = HistogramHeight * bin.Count / most;
        double width = Size * (bin.To - bin.From);
        return El(
            "g",
            El("rect", ("class", "hs-count"), ("x", X(bin.From) + 1), ("y", HistogramBottom - height), ("width", width - 2), ("height", height)),
            El("text", ("class", "hs-quiet"), ("text-anchor", "middle"), ("x", X((bin.From + bin.To) / 2)), ("y", HistogramBottom - height - 4), bin.Count.ToString(CultureInfo.InvariantCulture)));
    }

    private static double X(double share) => Left + (Size * share);

    private static double Y(double share) => Bottom - (Size * share);

    private static string Sentence(CalibrationBin bin)
        => $"{Figures.Plural(bin.Count, "forecast")} of {Tenth(bin)}, {Figures.Percent(bin.MeanForecast)} on average: {Figures.Share(bin.Observed)} passed ({Figures.PercentRange(bin.Interval.Low, bin.Interval.High)}).";

    private static string Tenth(CalibrationBin bin) => string.Create(CultureInfo.InvariantCulture, $"{bin.From * 100:0} to {bin.To * 100:0} %");
}
