using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace Homestretch.Files;

/// <summary>The look shared by pages, pictures and paper: style sheets and fonts, carried inside the library so that a
/// handout needs nothing but itself.</summary>
public static class Look
{
    private const string Latin = "U+0000-00FF,U+0131,U+0152-0153,U+02BB-02BC,U+02C6,U+02DA,U+02DC,U+0304,U+0308,U+0329,U+2000-206F,U+20AC,U+2122,U+2191,U+2193,U+2212,U+2215,U+FEFF,U+FFFD";
    private const string LatinExtended = "U+0100-02BA,U+02BD-02C5,U+02C7-02CC,U+02CE-02D7,U+02DD-02FF,U+1D00-1DBF,U+1E00-1E9F,U+1EF2-1EFF,U+2020,U+20A0-20AB,U+20AD-20C0,U+2113,U+2C60-2C7F,U+A720-A7FF";

    private static readonly Lazy<string> TokensText = new(() => Text("tokens.css"));
    private static readonly Lazy<string> PicturesText = new(() => Text("pictures.css"));
    private static readonly Lazy<string> HandoutText = new(() => Text("handout.css"));
    private static readonly Lazy<string> CardsText = new(() => Text("cards.css"));

    /// <summary>CSS custom properties for colour, space and type, in light and dark.</summary>
    public static string Tokens => TokensText.Value;

    /// <summary>The style sheet of everything in <c>Homestretch.Files.Pictures</c>; needs <see cref="Tokens"/>.</summary>
    public static string Pictures => PicturesText.Value;

    /// <summary>The style sheet of the handout's own parts; needs <see cref="Tokens"/> and <see cref="Pictures"/>.</summary>
    public static string Handout => HandoutText.Value;

    /// <summary>The style sheet of sheets of cards; needs <see cref="Tokens"/>.</summary>
    public static string Cards => CardsText.Value;

    /// <summary>The font files: Atkinson Hyperlegible Next, regular and bold, Latin and extended Latin (SIL Open Font License 1.1).</summary>
    public static ImmutableArray<FontFile> Fonts { get; } =
    [
        new("atkinson-hyperlegible-next-latin-400-normal.woff2", 400, Latin),
        new("atkinson-hyperlegible-next-latin-700-normal.woff2", 700, Latin),
        new("atkinson-hyperlegible-next-latin-ext-400-normal.woff2", 400, LatinExtended),
        new("atkinson-hyperlegible-next-latin-ext-700-normal.woff2", 700, LatinExtended),
    ];

    /// <summary>The fonts' licence, to be served or shipped beside them.</summary>
    public static string FontLicence => Text("fonts.OFL.txt");

    /// <summary>@font-face rules for fonts served under <paramref name="path"/>, such as <c>/fonts</c>.</summary>
    public static string FontFaces(string path) => Faces(font => path.TrimEnd('/') + "/" + font.Name);

    /// <summary>@font-face rules with the fonts inside (about 55 kB), for a page that must look the same offline.</summary>
    public static string EmbeddedFontFaces() => Faces(font => "data:font/woff2;base64," + Convert.ToBase64String(font.Bytes()));

    internal static byte[] Resource(string name)
    {
        using Stream stream = typeof(Look).Assembly.GetManifestResourceStream("Homestretch.Files.Look." + name)
            ?? throw new InvalidOperationException($"The library was built without its resource '{name}'.");
        byte[] bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }

    internal static string Text(string name) => Encoding.UTF8.GetString(Resource(name));

    private static string Faces(Func<FontFile, string> address)
    {
        StringBuilder css = new();
        foreach (FontFile font in Fonts)
        {
            css.Append(CultureInfo.InvariantCulture, $$"""
                @font-face {
                  font-family: "Atkinson Hyperlegible Next";
                  font-weight: {{font.Weight}};
                  font-display: swap;
                  src: url("{{address(font)}}") format("woff2");
                  unicode-range: {{font.Range}};
                }

                """);
        }

        return css.ToString();
    }
}
