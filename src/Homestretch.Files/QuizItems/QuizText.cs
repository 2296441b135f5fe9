using System.Net;

namespace Homestretch.Files.QuizItems;

/// <summary>A text of an item, as markup that a page may show as it is and as plain text.</summary>
/// <param name="Html">Holds the elements p, br, em, strong, sub, sup, ul, ol and li, without attributes, and nothing else.</param>
/// <param name="Plain">The same in plain text; paragraphs and points of a list on lines of their own.</param>
public sealed record QuizText(string Html, string Plain)
{
    /// <summary>A plain text.</summary>
    public static QuizText Of(string plain) => new($"<p>{WebUtility.HtmlEncode(plain)}</p>", plain);
}
