using System.Globalization;
using System.Text.RegularExpressions;

namespace Homestretch.Files.Tests.Pictures;

/// <summary>Colours that can be read, told apart, and are the same wherever dark mode is asked for.</summary>
public partial class LookTests
{
    public static TheoryData<string> Modes => ["light", "dark"];

    /// <summary>WCAG 2.2, success criterion 1.4.3: 4.5:1 for text.</summary>
    [Theory]
    [MemberData(nameof(Modes))]
    public void Text_reaches_4_5_to_1(string mode)
    {
        Dictionary<string, string> colours = Colours(mode);
        foreach (string ground in new[] { "paper", "surface", "ground", "weak-pale", "borderline-pale", "strong-pale", "accent-pale" })
        {
            Reaches(colours, "ink", ground, 4.5);
        }

        foreach (string ground in new[] { "weak-fill", "borderline-fill", "strong-fill" })
        {
            Reaches(colours, "ink", ground, 4.5);
        }

        foreach (string ground in new[] { "paper", "surface", "ground" })
        {
            Reaches(colours, "muted", ground, 4.5);
            Reaches(colours, "accent", ground, 4.5);
            Reaches(colours, "weak", ground, 4.5);
            Reaches(colours, "borderline", ground, 4.5);
            Reaches(colours, "strong", ground, 4.5);
        }

        Reaches(colours, "on-accent", "accent", 4.5);
    }

    /// <summary>WCAG 2.2, success criterion 1.4.11: 3:1 for what is needed to understand a picture. Fills are bounded by lines in the full hue.</summary>
    [Theory]
    [MemberData(nameof(Modes))]
    public void Edges_of_shapes_reach_3_to_1(string mode)
    {
        Dictionary<string, string> colours = Colours(mode);
        foreach (string shape in new[] { "weak", "borderline", "strong", "accent", "edge", "focus", "ink" })
        {
            Reaches(colours, shape, "paper", 3);
            Reaches(colours, shape, "surface", 3);
        }
    }

    /// <summary>Colour vision deficiencies simulated by the matrices of Machado, Oliveira and Fernandes 2009 at severity 1 (from memory);
    /// difference as CIE76 in CIELAB. 10 is about four just noticeable differences (common practice, no source).</summary>
    [Theory]
    [MemberData(nameof(Modes))]
    public void Standing_hues_stay_apart_for_colour_blind_readers(string mode)
    {
        Dictionary<string, string> colours = Colours(mode);
        double[][] visions =
        [
            [1, 0, 0, 0, 1, 0, 0, 0, 1],
            [0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998],
            [0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.011820, 0.042940, 0.968881],
            [1.255528, -0.076749, -0.178779, -0.078411, 0.930809, 0.147602, 0.004733, 0.691367, 0.303900],
        ];
        foreach (string kind in new[] { string.Empty, "-fill" })
        {
            foreach (double[] vision in visions)
            {
                double[][] labs = [.. new[] { "weak", "borderline", "strong" }.Select(h => Lab(See(Linear(colours[h + kind]), vision)))];
                Assert.True(Distance(labs[0], labs[1]) >= 10, $"{mode} weak{kind} and borderline{kind}: {Distance(labs[0], labs[1])}");
                Assert.True(Distance(labs[0], labs[2]) >= 10, $"{mode} weak{kind} and strong{kind}: {Distance(labs[0], labs[2])}");
                Assert.True(Distance(labs[1], labs[2]) >= 10, $"{mode} borderline{kind} and strong{kind}: {Distance(labs[1], labs[2])}");
            }
        }
    }

    [Fact]
    public void Dark_by_preference_and_dark_by_choice_are_the_same()
    {
        string[] blocks = [.. DarkBlock().Matches(Look.Tokens).Select(m => Spaces().Replace(m.Groups[1].Value, " ").Trim())];
        Assert.Equal(2, blocks.Length);
        Assert.Equal(blocks[0], blocks[1]);
    }

    [Fact]
    public void Style_sheets_use_only_tokens_that_exist_and_no_colour_of_their_own()
    {
        HashSet<string> defined = [.. Definition().Matches(Look.Tokens).Select(m => m.Groups[1].Value)];
        foreach (string sheet in new[] { Look.Pictures, Look.Handout })
        {
            Assert.All(Use().Matches(sheet).Select(m => m.Groups[1].Value), t => Assert.Contains(t, defined));
            Assert.DoesNotContain(Hex().Matches(sheet), m => m.Value != "#ffffff");
        }
    }

    [Fact]
    public void Fonts_are_woff2_and_carry_their_licence()
    {
        Assert.All(Look.Fonts, f => Assert.Equal("wOF2"u8.ToArray(), f.Bytes()[..4]));
        Assert.Contains("SIL OPEN FONT LICENSE Version 1.1", Look.FontLicence, StringComparison.Ordinal);
        Assert.Contains("url(\"/fonts/atkinson-hyperlegible-next-latin-400-normal.woff2\")", Look.FontFaces("/fonts"), StringComparison.Ordinal);
        Assert.Equal(Look.Fonts.Length, Regex.Count(Look.EmbeddedFontFaces(), "data:font/woff2;base64,"));
    }

    private static void Reaches(Dictionary<string, string> colours, string front, string back, double least)
    {
        double a = Luminance(Linear(colours[front]));
        double b = Luminance(Linear(colours[back]));
        double ratio = (Math.Max(a, b) + 0.05) / (Math.Min(a, b) + 0.05);
        Assert.True(ratio >= least, string.Create(CultureInfo.InvariantCulture, $"{front} on {back}: {ratio:F2}, {least} needed"));
    }

    private static Dictionary<string, string> Colours(string mode)
    {
        string css = Look.Tokens;
        int dark = css.IndexOf("@media screen and (prefers-color-scheme: dark)", StringComparison.Ordinal);
        string block = mode == "light" ? css[..dark] : css[dark..css.IndexOf("@media screen {", StringComparison.Ordinal)];
        return Colour().Matches(block).ToDictionary(m => m.Groups[1].Value, m => m.Groups[2].Value);
    }

    private static double[] Linear(string hex)
        => [.. new[] { 1, 3, 5 }.Select(i => int.Parse(hex.AsSpan(i, 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture) / 255.0).Select(v => v <= 0.04045 ? v / 12.92 : Math.Pow((v + 0.055) / 1.055, 2.4))];

    private static double Luminance(double[] rgb) => (0.2126 * rgb[0]) + (0.7152 * rgb[1]) + (0.0722 * rgb[2]);

    private static double[] See(double[] rgb, double[] m)
        => [.. Enumerable.Range(0, 3).Select(r => Math.Clamp((m[3 * r] * rgb[0]) + (m[(3 * r) + 1] * rgb[1]) + (m[(3 * r) + 2] * rgb[2]), 0, 1))];

    /// <summary>CIELAB under D65 from linear sRGB (IEC 61966-2-1 primaries).</summary>
    private static double[] Lab(double[] rgb)
    {
        double x = ((0.4124 * rgb[0]) + (0.3576 * rgb[1]) + (0.1805 * rgb[2])) / 0.9505;
        double y = Luminance(rgb);
        double z = ((0.0193 * rgb[0]) + (0.1192 * rgb[1]) + (0.9505 * rgb[2])) / 1.089;
        return [(116 * F(y)) - 16, 500 * (F(x) - F(y)), 200 * (F(y) - F(z))];

        static double F(double t) => t > 216.0 / 24389 ? Math.Cbrt(t) : ((24389.0 / 27 * t) + 16) / 116;
    }

    private static double Distance(double[] a, double[] b) => Math.Sqrt(a.Zip(b, (p, q) => (p - q) * (p - q)).Sum());

    [GeneratedRegex(@"--([a-z-]+): (#[0-9a-f]{6});")]
    private static partial Regex Colour();

    [GeneratedRegex(@"--([a-z0-9-]+):")]
    private static partial Regex Definition();

    [GeneratedRegex(@"var\(--([a-z0-9-]+)\)")]
    private static partial Regex Use();

    [GeneratedRegex("#[0-9a-fA-F]{3,8}\\b")]
    private static partial Regex Hex();

    [GeneratedRegex(@":root(?::not\(\[data-theme=""light""\]\)|\[data-theme=""dark""\]) \{([^}]*)\}")]
    private static partial Regex DarkBlock();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Spaces();
}
