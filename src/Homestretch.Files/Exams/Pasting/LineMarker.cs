using System.Text.RegularExpressions;

namespace Homestretch.Files.Exams.Pasting;

/// <summary>The bullet or number that a line begins with.</summary>
/// <param name="Style">Names the style, such as <c>roman</c> or <c>dotted-2</c>; lines of one style stand on one level. Empty where there is none.</param>
/// <param name="Word">The word before the number, in small letters: <c>section</c>, <c>domain</c>; empty where there is none.</param>
/// <param name="Rest">The text after it.</param>
internal sealed partial record LineMarker(string Style, string Word, string Rest)
{
    /// <summary>The marker of a line.</summary>
    /// <param name="text">The line without the spaces around it.</param>
    /// <param name="before">The style of lines before it, which decides what "C." and "I." are.</param>
    /// <param name="countsPlainly">Whether lines of this table are counted by a number without a full stop.</param>
    public static LineMarker Of(string text, IReadOnlyCollection<string> before, bool countsPlainly)
    {
        if (countsPlainly && PlainNumber().Match(text) is { Success: true } plain)
        {
            return new("dotted-1", "", plain.Groups["rest"].Value.Trim());
        }

        if (WordForm().Match(text) is { Success: true } word)
        {
            string name = word.Groups["word"].Value.ToLowerInvariant();
            return new("word-" + name, name, word.Groups["rest"].Value.Trim());
        }

        if (Dotted().Match(text) is { Success: true } dotted)
        {
            string[] parts = dotted.Groups["number"].Value.TrimEnd('.').Split('.');
            int depth = parts.Length > 1 && parts[^1] is "0" or "00" ? parts.Length - 1 : parts.Length;
            return new($"dotted-{depth}", "", dotted.Groups["rest"].Value.Trim());
        }

        if (Single().Match(text) is { Success: true } single)
        {
            string mark = single.Groups["mark"].Value;
            string style = char.IsAsciiDigit(mark[0]) ? "dotted-1"
                : char.IsUpper(mark[0]) ? Letters(mark, "roman", "letter", before)
                : Letters(mark, "small-roman", "small-letter", before);
            return new(style, "", single.Groups["rest"].Value.Trim());
        }

        return Bullet().Match(text) is { Success: true } bullet
            ? new("bullet-" + bullet.Groups["mark"].Value, "", bullet.Groups["rest"].Value.Trim())
            : new("", "", text);
    }

    /// <summary>Whether lines are counted 1, 2, 3 without a full stop.</summary>
    public static bool CountPlainly(IEnumerable<string> lines)
    {
        int[] numbers = [.. lines.Select(l => PlainNumber().Match(l.Trim())).Where(m => m.Success).Select(m => int.Parse(m.Groups["number"].ValueSpan, System.Globalization.CultureInfo.InvariantCulture))];
        return numbers.Length > 1 && numbers.Select((n, i) => n == i + 1).All(next => next);
    }

    // "I." begins roman numbers unless letters have come as far as H; "C." and "D." go on with letters where those have begun.
    private static string Letters(string mark, string roman, string letter, IReadOnlyCollection<string> before)
    {
        bool couldBeRoman = Roman().IsMatch(mark);
        if (mark.Length > 1)
        {
            return roman;
        }

        return couldBeRoman && (before.Contains(roman) || (mark is "I" or "i" && !before.Contains(letter))) && !(before.Contains(letter) && mark is not ("I" or "V" or "X" or "i" or "v" or "x"))
            ? roman
            : letter;
    }

    [GeneratedRegex(@"^(?<word>domain|section|part|paper|component|area|content\s+area|topic|unit|module|chapter|category|competency|objective|task|subject|field|block)\s+(?:no\.?\s*)?(?:[IVXLC]{1,6}|[0-9]{1,3}(?:\.[0-9]{1,2})*|[A-Z])\s*(?:[:.)\u2010-\u2015-]\s*|\s+|$)(?<rest>.*)$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase | RegexOptions.Singleline, 1000)]
    private static partial Regex WordForm();

    [GeneratedRegex(@"^(?<number>[0-9]{1,3}(?:\.[0-9]{1,3})+\.?)\)?\s+(?![0-9%~]|percent|per\s?cent|pct|items?\b|questions?\b|to\b|[\u2010-\u2015-])(?<rest>.+)$", RegexOptions.CultureInvariant | RegexOptions.Singleline, 1000)]
    private static partial Regex Dotted();

    [GeneratedRegex(@"^\(?(?<mark>[0-9]{1,3}|[IVXLC]{1,6}|[ivxlc]{1,6}|[A-Za-z])[.):]\s*(?=\D)(?<rest>.+)$", RegexOptions.CultureInvariant | RegexOptions.Singleline, 1000)]
    private static partial Regex Single();

    [GeneratedRegex(@"^(?<mark>[\u2022\u25CF\u25AA\u25E6\u2023\u00B7\u25A0\u25A1\u25CB\uF0B7*\u2010-\u2015+-]|o(?=\s))\s*(?=[^0-9\s])(?<rest>.+)$", RegexOptions.CultureInvariant | RegexOptions.Singleline, 1000)]
    private static partial Regex Bullet();

    [GeneratedRegex(@"^(?<number>[0-9]{1,2})\s+(?!items?\b|questions?\b|percent\b|per\s?cent\b|to\b)(?<rest>\p{L}.*)$", RegexOptions.CultureInvariant | RegexOptions.Singleline, 1000)]
    private static partial Regex PlainNumber();

    [GeneratedRegex("^[IVXLC]+$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Roman();
}
