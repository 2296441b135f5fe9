using CsCheck;

using Homestretch.Files.Pictures;

namespace Homestretch.Files.Tests.Pictures;

public class LetteringTests
{
    private static readonly Gen<string> Words = Gen.String[Gen.Char["abcdefghijklmnopqrstuvwxyz ABCÄéß漢-'&<"], 0, 80];

    [Fact]
    public void Wrapped_lines_fit_and_keep_every_letter()
        => Gen.Select(Words, Gen.Double[30, 300]).Sample((text, width) =>
        {
            List<string> lines = Lettering.Wrap(text, 13, width, int.MaxValue);
            string kept = string.Concat(lines.Select((l, i) => i < lines.Count - 1 && l.EndsWith('-') ? l[..^1] : l)).Replace(" ", string.Empty, StringComparison.Ordinal);
            return lines.All(l => Lettering.Width(l, 13) <= width + 1e-9)
                && kept.Replace("-", string.Empty, StringComparison.Ordinal) == text.Replace(" ", string.Empty, StringComparison.Ordinal).Replace("-", string.Empty, StringComparison.Ordinal);
        });

    [Fact]
    public void What_does_not_fit_in_the_lines_allowed_ends_in_an_ellipsis()
        => Gen.Select(Words, Gen.Double[30, 300], Gen.Int[1, 3]).Sample((text, width, most) =>
        {
            List<string> lines = Lettering.Wrap(text, 13, width, most);
            bool whole = Lettering.Wrap(text, 13, width, int.MaxValue).Count <= most;
            return lines.Count <= most && lines.All(l => Lettering.Width(l, 13) <= width + 1e-9) && (whole || lines[^1].EndsWith('…'));
        });

    /// <summary>Advance widths of Atkinson Hyperlegible Next Regular, units of 1/1000 em, as read from the font with fontTools 4.38: C 645, a 525, t 326.</summary>
    [Fact]
    public void Widths_are_the_font_s()
    {
        Assert.Equal((645 + 525 + 326) * 13 * 1.04 / 1000, Lettering.Width("Cat", 13), 1e-9);
        Assert.Equal(Lettering.Width("e", 13), Lettering.Width("é", 13), 1e-9);
        Assert.True(Lettering.Width("Cat", 13, bold: true) > Lettering.Width("Cat", 13));
    }
}
