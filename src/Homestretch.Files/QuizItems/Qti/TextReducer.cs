using System.Net;
using System.Text;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace Homestretch.Files.QuizItems.Qti;

/// <summary>Reduces the markup of an item to text, emphasis and lists. Everything is written anew from the text, so that nothing of the original markup can reach a page.</summary>
internal sealed partial class TextReducer
{
    private static readonly HashSet<string> _blocks =
        ["p", "div", "blockquote", "h1", "h2", "h3", "h4", "h5", "h6", "pre", "address", "section", "article", "ul", "ol", "dl", "dt", "dd", "table", "tr", "prompt", "rubric-block", "content-body", "figure", "figcaption", "hr"];

    private static readonly Dictionary<string, string> _inline = new()
    {
        ["em"] = "em",
        ["i"] = "em",
        ["dfn"] = "em",
        ["cite"] = "em",
        ["strong"] = "strong",
        ["b"] = "strong",
        ["sub"] = "sub",
        ["sup"] = "sup",
    };

    private static readonly Dictionary<string, string> _unsupported = new()
    {
        ["math"] = "a formula (MathML)",
        ["audio"] = "a recording",
        ["video"] = "a film",
        ["object"] = "an object",
        ["svg"] = "a drawing (SVG)",
        ["iframe"] = "a page from elsewhere",
        ["embed"] = "an object",
        ["canvas"] = "a drawing",
        ["include"] = "a part from another file",
        ["printed-variable"] = "a value that changes from person to person",
        ["template-inline"] = "a part that changes from person to person",
        ["template-block"] = "a part that changes from person to person",
        ["custom-operator"] = "a part of its own kind",
    };

    private static readonly HashSet<string> _dropped = ["script", "style", "stylesheet", "feedback-inline", "feedback-block", "modal-feedback", "catalog-info", "rt", "rp"];

    private readonly List<string> notes;
    private readonly Func<XElement, bool> skip;
    private readonly StringBuilder html = new();
    private readonly List<string> lines = [];

    private TextReducer(List<string> notes, Func<XElement, bool> skip)
    {
        this.notes = notes;
        this.skip = skip;
    }

    /// <summary>Why the text cannot be shown, or null.</summary>
    public string? Unsupported { get; private set; }

    /// <summary>Reduces the inside of elements, one after the other.</summary>
    /// <param name="elements">The elements.</param>
    /// <param name="notes">Gets what was left out.</param>
    /// <param name="unsupported">What the text needs and cannot be shown, or null.</param>
    /// <param name="skip">Elements that are no part of the text.</param>
    public static QuizText Reduce(IEnumerable<XElement> elements, List<string> notes, out string? unsupported, Func<XElement, bool>? skip = null)
    {
        TextReducer reducer = new(notes, skip ?? (_ => false));
        foreach (XElement element in elements)
        {
            reducer.Blocks(element.Nodes());
        }

        unsupported = reducer.Unsupported;
        return new(reducer.html.ToString(), string.Join('\n', reducer.lines));
    }

    private void Blocks(IEnumerable<XNode> nodes)
    {
        StringBuilder run = new();
        StringBuilder plain = new();
        foreach (XNode node in nodes)
        {
            if (node is XElement element && HasBlock(element) && !_dropped.Contains(QtiNames.Of(element)) && !skip(element))
            {
                Flush(run, plain);
                Block(element);
            }
            else
            {
                Inline(node, run, plain);
            }
        }

        Flush(run, plain);
    }

    private void Block(XElement element)
    {
        switch (QtiNames.Of(element))
        {
            case "ul" or "ol":
                string list = QtiNames.Of(element);
                html.Append('<').Append(list).Append('>');
                foreach ((int number, XElement point) in element.Elements().Where(e => !skip(e)).Index())
                {
                    StringBuilder run = new();
                    StringBuilder plain = new();
                    foreach (XNode node in point.Nodes())
                    {
                        Inline(node, run, plain);
                    }

                    html.Append("<li>").Append(Tight(run)).Append("</li>");
                    lines.Add((list == "ul" ? "- " : $"{number + 1}. ") + Tight(plain));
                }

                html.Append("</").Append(list).Append('>');
                break;
            case "table":
                notes.Add("A table was turned into lines of text.");
                foreach (XElement row in element.Inside("tr"))
                {
                    StringBuilder run = new();
                    StringBuilder plain = new();
                    foreach ((int number, XElement cell) in row.Elements().Index())
                    {
                        run.Append(number > 0 ? " | " : "");
                        plain.Append(number > 0 ? " | " : "");
                        Inline(cell, run, plain);
                    }

                    Flush(run, plain);
                }

                break;
            case "h1" or "h2" or "h3" or "h4" or "h5" or "h6":
                StringBuilder heading = new();
                StringBuilder words = new();
                foreach (XNode node in element.Nodes())
                {
                    Inline(node, heading, words);
                }

                Flush(Tight(heading) is { Length: > 0 } text ? new StringBuilder($"<strong>{text}</strong>") : new(), words);
                break;
            default:
                Blocks(element.Nodes());
                break;
        }
    }

    private void Inline(XNode node, StringBuilder run, StringBuilder plain)
    {
        if (node is XText text)
        {
            string value = Space().Replace(text.Value, " ");
            run.Append(WebUtility.HtmlEncode(value));
            plain.Append(value);
            return;
        }

        if (node is not XElement element || skip(element))
        {
            return;
        }

        string name = QtiNames.Of(element);
        if (_dropped.Contains(name))
        {
            if (name.Contains("feedback", StringComparison.Ordinal))
            {
                notes.Add("Feedback that appears after an answer was left out.");
            }
            else if (name is "script")
            {
                notes.Add("A script was left out.");
            }
        }
        else if (_unsupported.TryGetValue(name, out string? what))
        {
            Unsupported ??= what;
        }
        else if (name is "img" or "picture")
        {
            string alt = Space().Replace(element.Value("alt") ?? "", " ").Trim();
            notes.Add(alt.Length > 0 ? $"A picture was left out; its description stands in its place: {Sheets.Cell.Show(alt)}" : "A picture without a description was left out.");
            if (alt.Length > 0)
            {
                run.Append(" [").Append(WebUtility.HtmlEncode(alt)).Append("] ");
                plain.Append(" [").Append(alt).Append("] ");
            }
        }
        else if (name == "br")
        {
            run.Append("<br>");
            plain.Append('\n');
        }
        else
        {
            string? tag = _inline.GetValueOrDefault(name);
            bool apart = _blocks.Contains(name) || name is "li" or "td" or "th";
            run.Append(tag is null ? apart ? " " : "" : $"<{tag}>");
            plain.Append(apart ? " " : "");
            foreach (XNode child in element.Nodes())
            {
                Inline(child, run, plain);
            }

            run.Append(tag is null ? apart ? " " : "" : $"</{tag}>");
            plain.Append(apart ? " " : "");
        }
    }

    private void Flush(StringBuilder run, StringBuilder plain)
    {
        string text = Tight(run);
        string words = Tight(plain);
        if (words.Length > 0)
        {
            html.Append("<p>").Append(text).Append("</p>");
            lines.Add(words);
        }

        run.Clear();
        plain.Clear();
    }

    private static bool HasBlock(XElement element) => element.DescendantsAndSelf().Any(e => _blocks.Contains(QtiNames.Of(e)));

    private static string Tight(StringBuilder run) => Gap().Replace(run.ToString(), " ").Trim().Normalize(NormalizationForm.FormC);

    [GeneratedRegex(@"[\s\u200b\ufeff]+")]
    private static partial Regex Space();

    [GeneratedRegex(@"[^\S\n]+")]
    private static partial Regex Gap();
}
