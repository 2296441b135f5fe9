using System.Globalization;
using System.Text;

namespace Homestretch.Files.Pictures;

/// <summary>How wide text will be, so that labels can be wrapped and placed before any browser sees them.</summary>
internal static class Lettering
{
    // A reader without the font falls back to a wider one (Verdana, DejaVu Sans); labels leave this much room.
    private const double Allowance = 1.04;
    private const int Wide = 1000;

    // Advance widths in 1/1000 em of U+0020 to U+007E, read from the font files (Atkinson Hyperlegible Next).
    private static ReadOnlySpan<short> Regular =>
    [
        280, 286, 301, 651, 592, 919, 731, 160, 299, 299, 485, 606, 210, 362, 210, 387, 648, 407, 548,
        576, 614, 588, 598, 510, 615, 595, 210, 210, 553, 628, 553, 480, 778, 626, 613, 645, 669, 569,
        552, 694, 694, 392, 512, 631, 541, 824, 693, 714, 592, 724, 614, 592, 558, 690, 593, 856, 623,
        575, 607, 317, 387, 344, 552, 372, 243, 525, 566, 485, 564, 538, 314, 558, 550, 252, 245, 492,
        262, 845, 550, 548, 566, 574, 349, 471, 326, 540, 461, 684, 481, 449, 460, 344, 237, 344, 555,
    ];

    private static ReadOnlySpan<short> Bold =>
    [
        312, 303, 390, 765, 610, 969, 725, 210, 335, 335, 485, 595, 271, 373, 272, 440, 659, 440, 579,
        600, 624, 607, 626, 537, 624, 571, 272, 272, 569, 612, 569, 547, 781, 678, 643, 658, 688, 597,
        566, 718, 701, 424, 561, 663, 552, 858, 717, 746, 629, 756, 650, 610, 607, 686, 644, 886, 685,
        650, 618, 340, 440, 344, 582, 400, 288, 552, 596, 510, 596, 563, 365, 593, 571, 300, 259, 555,
        318, 882, 571, 576, 596, 599, 376, 508, 376, 567, 530, 740, 539, 521, 505, 381, 254, 381, 537,
    ];

    /// <summary>Width in the unit of <paramref name="size"/>.</summary>
    public static double Width(string text, double size, bool bold = false)
    {
        ReadOnlySpan<short> widths = bold ? Bold : Regular;
        int sum = 0;
        foreach (char c in Markup.Clean(text).Normalize(NormalizationForm.FormD))
        {
            if (c is >= ' ' and <= '~')
            {
                sum += widths[c - ' '];
            }
            else if (CharUnicodeInfo.GetUnicodeCategory(c) is not (UnicodeCategory.NonSpacingMark or UnicodeCategory.Surrogate))
            {
                sum += c < '\u2E80' ? 600 : Wide;
            }
            else if (char.IsHighSurrogate(c))
            {
                sum += Wide;
            }
        }

        return sum * size * Allowance / 1000;
    }

    /// <summary>Breaks text into lines of at most <paramref name="width"/>, at spaces where possible and inside a word where not.
    /// What does not fit in <paramref name="maxLines"/> ends in an ellipsis.</summary>
    public static List<string> Wrap(string text, double size, double width, int maxLines, bool bold = false)
    {
        List<string> lines = [];
        string line = string.Empty;
        foreach (string word in Words(text).SelectMany(w => Pieces(w, size, width, bold)))
        {
            string longer = line.Length == 0 ? word : line + " " + word;
            if (line.Length > 0 && Width(longer, size, bold) > width)
            {
                lines.Add(line);
                line = word;
            }
            else
            {
                line = longer;
            }
        }

        if (line.Length > 0)
        {
            lines.Add(line);
        }

        if (lines.Count > maxLines)
        {
            string last = lines[maxLines - 1];
            lines.RemoveRange(maxLines - 1, lines.Count - maxLines + 1);
            lines.Add(Shorten(last + " …", size, width, bold));
        }

        return lines;
    }

    /// <summary>Whether text fits whole, without a word broken or cut.</summary>
    public static bool Fits(string text, double size, double width, int maxLines, bool bold = false)
        => Words(text).All(w => Width(w, size, bold) <= width)
            && Wrap(text, size, width, int.MaxValue, bold).Count <= maxLines;

    /// <summary>The longest beginning that fits in <paramref name="width"/>, with an ellipsis when cut.</summary>
    public static string Shorten(string text, double size, double width, bool bold = false)
    {
        if (Width(text, size, bold) <= width)
        {
            return text;
        }

        int[] starts = StringInfo.ParseCombiningCharacters(text);
        for (int i = starts.Length - 1; i > 0; i--)
        {
            string cut = text[..starts[i]].TrimEnd(' ', '…', ',', '-') + "…";
            if (Width(cut, size, bold) <= width)
            {
                return cut;
            }
        }

        return "…";
    }

    // A figure and its unit, joined by a space that does not break, are one word.
    private static string[] Words(string text) => Markup.Clean(text).Split([' ', '\t', '\r', '\n'], StringSplitOptions.RemoveEmptyEntries);

    private static IEnumerable<string> Pieces(string word, double size, double width, bool bold)
    {
        while (Width(word, size, bold) > width)
        {
            int[] starts = StringInfo.ParseCombiningCharacters(word);
            int fit = 1;
            while (fit + 1 < starts.Length && Width(word[..starts[fit + 1]] + "-", size, bold) <= width)
            {
                fit++;
            }

            if (fit >= starts.Length)
            {
                break;
            }

            yield return word[..starts[fit]] + "-";
            word = word[starts[fit]..];
        }

        yield return word;
    }
}
