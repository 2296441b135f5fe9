using System.Net;

using static Homestretch.Files.Pictures.Markup;

namespace Homestretch.Files.Handouts;

/// <summary>The frame of everything that is printed from one file.</summary>
internal static class Paper
{
    /// <summary>A self-contained HTML document: style and fonts inside, no script, nothing loaded.</summary>
    /// <param name="title">Its title, as text.</param>
    /// <param name="style">Its style sheets, beside the tokens.</param>
    /// <param name="main">Its content, as markup.</param>
    public static string Html(string title, string style, string main) => $"""
        <!DOCTYPE html>
        <html lang="en-GB" data-theme="light">
        <head>
        <meta charset="utf-8"/>
        <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; font-src data:"/>
        <meta name="viewport" content="width=device-width, initial-scale=1"/>
        <title>{WebUtility.HtmlEncode(Clean(title))}</title>
        <style>
        {Look.EmbeddedFontFaces()}{Look.Tokens}{style}</style>
        </head>
        <body>
        {main}
        </body>
        </html>

        """;
}
