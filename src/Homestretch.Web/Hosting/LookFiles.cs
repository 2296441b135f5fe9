using System.Security.Cryptography;
using System.Text;

using Homestretch.Files;

namespace Homestretch.Web.Hosting;

/// <summary>Serves the shared look (colours, type, pictures) and its fonts from the library that the handout takes them from too.</summary>
public static class LookFiles
{
    private const string FontPath = "/fonts";

    private static readonly byte[] StyleSheet = Encoding.UTF8.GetBytes(Look.FontFaces(FontPath) + "\n" + Look.Tokens + "\n" + Look.Pictures);

    /// <summary>Address of the style sheet; it names the version, so that browsers may keep it.</summary>
    public static string StyleSheetAddress { get; } =
        $"/look.css?v={Convert.ToHexStringLower(SHA256.HashData(StyleSheet).AsSpan(0, 6))}";

    /// <summary>Addresses of the fonts that nearly every page needs.</summary>
    public static IEnumerable<string> MainFonts => Look.Fonts.Take(2).Select(f => $"{FontPath}/{f.Name}");

    /// <summary>Maps the style sheet, the fonts and their licence.</summary>
    public static void MapLook(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/look.css", (HttpContext context) => Kept(context, StyleSheet, "text/css; charset=utf-8"));
        routes.MapGet(FontPath + "/OFL.txt", (HttpContext context) => Kept(context, Encoding.UTF8.GetBytes(Look.FontLicence), "text/plain; charset=utf-8"));
        foreach (FontFile font in Look.Fonts)
        {
            routes.MapGet($"{FontPath}/{font.Name}", (HttpContext context) => Kept(context, font.Bytes(), "font/woff2"));
        }
    }

    private static IResult Kept(HttpContext context, byte[] bytes, string type)
    {
        context.Response.Headers.CacheControl = "public, max-age=31536000, immutable";
        return Results.Bytes(bytes, type);
    }
}
