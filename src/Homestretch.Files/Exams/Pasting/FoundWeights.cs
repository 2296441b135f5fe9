using System.Globalization;
using System.Text.RegularExpressions;

namespace Homestretch.Files.Exams.Pasting;

/// <summary>The figures of one line, and the text that is left without them.</summary>
/// <param name="Rest">The text without the figures.</param>
/// <param name="RestWithBare">The text without the figures that have a unit, for lines whose last number turns out to belong to the name.</param>
/// <param name="Percent">Percent or a range of percentages, if printed.</param>
/// <param name="Items">Items, if printed.</param>
/// <param name="Bare">A figure without a unit in a cell of its own or at the end of the line.</param>
/// <param name="Remark">What was printed and cannot be used, or how it was taken; empty where there is nothing to say.</param>
internal sealed partial record FoundWeights(string Rest, string RestWithBare, PastedWeight? Percent, PastedWeight? Items, PastedWeight? Bare, string Remark)
{
    private const string Number = @"[0-9]{1,4}(?:[.,][0-9]{1,4})?";
    private const string Dash = @"(?:[-\u2010-\u2015\u2212]|to\b|and\b)";
    private const string PercentSign = @"(?:%|percent\b|per\s?cent\b|pct\b\.?)";
    private const string Questions = @"(?:(?:scored|multiple[- ]choice|operational|test|exam)\s+)*(?:items?|questions?|qs?)\b\.?";
    private const string Roughly = @"(?:(?:approx(?:imately)?\.?|about|around|circa|ca\.?|roughly|~|\u2248)\s*)?";

    /// <summary>Whether there is no figure, not even one that cannot be used.</summary>
    public bool None => Percent is null && Items is null && Bare is null && Remark.Length == 0;

    /// <summary>Looks through the cells of a line.</summary>
    /// <param name="cells">Its cells; one where the text has no columns.</param>
    /// <param name="heads">What the columns hold, by the headings of the table; shorter where that is not known.</param>
    public static FoundWeights Of(IReadOnlyList<string> cells, IReadOnlyList<PastedWeight.Unit?> heads)
    {
        PastedWeight? percent = null;
        PastedWeight? items = null;
        PastedWeight? bare = null;
        List<string> rest = [];
        List<string> remarks = [];
        for (int i = 0; i < cells.Count; i++)
        {
            string cell = cells[i].Trim();
            if (cell.StartsWith('=') && cells.Count > 1)
            {
                remarks.Add($"'{Short(cell)}' is a formula; paste the values.");
                continue;
            }

            if (cells.Count > 1 && (i > 0 || heads.ElementAtOrDefault(0) is not null) && BareOnly().Match(cell) is { Success: true } alone)
            {
                PastedWeight figure = Figure(alone, heads.ElementAtOrDefault(i) ?? PastedWeight.Unit.Bare);
                if (figure.Kind == PastedWeight.Unit.Items && figure.Low != figure.High)
                {
                    remarks.Add($"'{cell}' is a range of items; give one number of items, or percentages.");
                }
                else if (figure.Kind == PastedWeight.Unit.Percent)
                {
                    percent ??= figure;
                }
                else if (figure.Kind == PastedWeight.Unit.Items)
                {
                    items ??= figure;
                }
                else
                {
                    bare ??= figure;
                }

                continue;
            }

            if (Limit().Match(cell) is { Success: true } limit)
            {
                remarks.Add($"'{limit.Value.Trim()}' is a limit and no figure; give a weight yourself.");
                cell = Remove(cell, limit);
            }

            if (PercentForm().Match(cell) is { Success: true } share)
            {
                percent ??= Figure(share, PastedWeight.Unit.Percent);
                cell = Remove(cell, share);
            }

            if (ItemsForm().Match(cell) is { Success: true } count)
            {
                PastedWeight figure = Figure(count, PastedWeight.Unit.Items);
                if (figure.Low == figure.High)
                {
                    items ??= figure;
                }
                else
                {
                    remarks.Add($"'{count.Value.Trim(' ', '(', ')')}' is a range of items; give one number of items, or percentages.");
                }

                cell = Remove(cell, count);
            }

            if (cell.Length > 0)
            {
                rest.Add(cell);
            }
        }

        string text = string.Join(' ', rest);
        string whole = text;
        if (percent is null && items is null && bare is null && cells.Count == 1 && BareEnd().Match(text) is { Success: true } end)
        {
            bare = Figure(end, PastedWeight.Unit.Bare);
            text = text[..end.Index];
        }

        return new(Leaders().Replace(text, " ").Trim(), Leaders().Replace(whole, " ").Trim(), percent, items, bare, string.Join(' ', remarks));
    }

    private static PastedWeight Figure(Match match, PastedWeight.Unit kind)
    {
        double low = Value(match.Groups["low"].Value);
        double high = match.Groups["high"].Success ? Value(match.Groups["high"].Value) : low;
        return new(kind, Math.Min(low, high), Math.Max(low, high));
    }

    private static double Value(string text) => double.Parse(text.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);

    // What stood around the figure goes with it: brackets, dashes, colons.
    private static string Remove(string cell, Match match)
    {
        string before = cell[..match.Index].TrimEnd(' ', '(', '[', ':', ';', ',', '-', '–', '—', '=', '.', '|', '\t', '/');
        string after = cell[(match.Index + match.Length)..].TrimStart(' ', ')', ']', ':', ';', ',', '-', '–', '—', '.', '|', '\t', '/');
        after = OfTheExam().Replace(after, "").TrimStart(' ', ')', ']', ':', ';', ',', '-', '–', '—');
        return $"{before} {after}".Trim();
    }

    private static string Short(string text) => text.Length <= 30 ? text : text[..30] + "…";

    [GeneratedRegex($@"(?<![\w.,])(?:between\s+)?{Roughly}(?<low>{Number})\s*{PercentSign}?\s*(?:{Dash}\s*{Roughly}(?<high>{Number})\s*)?{PercentSign}", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase, 1000)]
    private static partial Regex PercentForm();

    [GeneratedRegex($@"(?<![\w.,])(?:between\s+)?{Roughly}(?<low>[0-9]{{1,4}})\s*(?:{Dash}\s*(?<high>[0-9]{{1,4}})\s*)?-?{Questions}", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase, 1000)]
    private static partial Regex ItemsForm();

    [GeneratedRegex($@"(?:\b(?:up to|at least|at most|less than|more than|fewer than|over|under|min(?:imum)?\.?(?: of)?|max(?:imum)?\.?(?: of)?)|[<>≤≥])\s*{Number}\s*(?:{PercentSign}|{Questions})", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase, 1000)]
    private static partial Regex Limit();

    [GeneratedRegex($@"^\(?{Roughly}(?<low>{Number})(?:\s*{Dash}\s*(?<high>{Number}))?\)?$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase, 1000)]
    private static partial Regex BareOnly();

    [GeneratedRegex($@"(?<=[\p{{L}}\p{{Nd}})][\s.:…]*)(?:[\s.:…]+)\(?(?<low>{Number})(?:\s*{Dash}\s*(?<high>{Number}))?\)?$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase, 1000)]
    private static partial Regex BareEnd();

    [GeneratedRegex(@"(?:\s*[.…_]){3,}\s*", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Leaders();

    [GeneratedRegex(@"^\s*of\s+(?:the\s+)?(?:exam(?:ination)?|test|section|paper|items|questions|total|score)\b\s*", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase, 1000)]
    private static partial Regex OfTheExam();
}
