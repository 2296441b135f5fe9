using System.Xml;
using System.Xml.Linq;

using Homestretch.Files.Sheets;

namespace Homestretch.Files.QuizItems.Qti;

/// <summary>Takes choice items of QTI 2.1, 2.2 and 3.0 (1EdTech) over, or says why one cannot be.</summary>
internal static class QtiItem
{
    private const int MostOptions = 26;

    private static readonly string[] _versions = ["imsqti_v2p1", "imsqti_v2p2", "imsqtiasi_v3p0"];

    private static readonly Dictionary<string, string> _notItems = new()
    {
        ["assessment-test"] = "This is a test; which items it puts in which order is not taken over.",
        ["assessment-section"] = "This is a section of a test; which items it puts in which order is not taken over.",
        ["assessment-stimulus"] = "This is a passage that several items share; passages are not taken over.",
        ["outcome-declaration"] = "This is a part of a test, not an item.",
        ["manifest"] = "This is the list of a content package; give the package as a .zip file.",
        ["questestinterop"] = "This is QTI 1.2 or older; export the items as QTI 2.1 or later.",
    };

    /// <summary>Reads one item.</summary>
    /// <param name="file">The file's name in messages.</param>
    /// <param name="path">Its path, whose folders may name a topic.</param>
    /// <param name="root">The root element of the file.</param>
    /// <param name="said">What a package says of the item.</param>
    /// <param name="guess">Finds its topic.</param>
    /// <param name="items">Gets the item, or why it was left out.</param>
    public static void Read(string file, string path, XElement root, IEnumerable<string> said, TopicGuess guess, ItemCollector items)
    {
        string id = root.Value("identifier") is { Length: > 0 } identifier ? Cell.Show(identifier) : file[(file.LastIndexOf('/') + 1)..];
        List<string> notes = [];
        string? reason = Refusal(root) ?? Take(file, path, root, id, said, guess, items, notes);
        if (reason is not null)
        {
            items.Skip(file, id, reason);
        }
    }

    private static string? Refusal(XElement root)
    {
        if (!root.Is("assessment-item"))
        {
            return _notItems.GetValueOrDefault(QtiNames.Of(root)) ?? $"The file's outermost element is '{Cell.Show(root.Name.LocalName)}'; an item of QTI 2.1, 2.2 or 3.0 begins with assessmentItem or qti-assessment-item.";
        }

        if (!_versions.Any(v => root.Name.NamespaceName.EndsWith(v, StringComparison.Ordinal)))
        {
            return $"The item names the format '{Cell.Show(root.Name.NamespaceName)}'; QTI 2.1, 2.2 and 3.0 are read.";
        }

        return root.Value("adaptive") is "true" or "1" ? "The item is adaptive: it takes several answers in turn."
            : root.Elements().Any(e => QtiNames.Of(e).StartsWith("template-", StringComparison.Ordinal)) ? "The item is a template whose values change from person to person."
            : root.Children("assessment-stimulus-ref").Any() ? "The item belongs to a passage in another file; passages are not taken over."
            : root.Children("item-body").Count() != 1 ? "The item has no body."
            : null;
    }

    // The reason why not, or null where the item was taken over.
    private static string? Take(string file, string path, XElement root, string id, IEnumerable<string> said, TopicGuess guess, ItemCollector items, List<string> notes)
    {
        XElement body = root.Children("item-body").First();
        XElement[] interactions = [.. body.Descendants().Where(e => QtiNames.Of(e).EndsWith("-interaction", StringComparison.Ordinal))];
        if (interactions.Length != 1)
        {
            return interactions.Length == 0 ? "The item asks for no answer." : $"The item asks for {interactions.Length} answers; one is supported.";
        }

        XElement interaction = interactions[0];
        if (!interaction.Is("choice-interaction"))
        {
            return $"The item is of the kind '{QtiNames.Of(interaction)}'; choice items are read.";
        }

        string? answer = interaction.Value("response-identifier");
        if (root.Children("response-declaration").FirstOrDefault(d => d.Value("identifier") == answer) is not { } declaration)
        {
            return $"No response is declared for '{Cell.Show(answer ?? "")}'.";
        }

        if (declaration.Value("cardinality") is not ("single" or "multiple") || declaration.Value("base-type") is not "identifier")
        {
            return $"The response is declared as {Cell.Show(declaration.Value("cardinality") ?? "nothing")} {Cell.Show(declaration.Value("base-type") ?? "")}; a single identifier or multiple identifiers are read.";
        }

        bool several = declaration.Value("cardinality") == "multiple";
        HashSet<string> correct = [.. declaration.Children("correct-response").SelectMany(c => c.Children("value")).Select(v => v.Value.Trim())];
        if (correct.Count == 0)
        {
            return "No correct response is declared.";
        }

        XElement[] choices = [.. interaction.Children("simple-choice")];
        string[] names = [.. choices.Select(c => c.Value("identifier") ?? "")];
        if (choices.Length is < 2 or > MostOptions || names.Distinct().Count() != names.Length || names.Contains(""))
        {
            return $"The item has {choices.Length} options; 2 to {MostOptions} with identifiers of their own are read.";
        }

        if (correct.FirstOrDefault(c => !names.Contains(c)) is { } missing)
        {
            return $"The correct response '{Cell.Show(missing)}' is none of the options.";
        }

        if (!several && correct.Count > 1)
        {
            return $"{correct.Count} correct responses are declared, and only one may be chosen.";
        }

        if (several && int.TryParse(interaction.Value("max-choices"), out int most) && most > 0 && most < correct.Count)
        {
            return $"{correct.Count} responses are correct, and at most {most} may be chosen.";
        }

        QuizText prompt = TextReducer.Reduce([body], notes, out string? needs, e => e.Is("simple-choice") || IsForOthers(e, notes));
        List<QuizOption> options = [];
        foreach ((XElement choice, string name) in choices.Zip(names))
        {
            QuizText text = TextReducer.Reduce([choice], notes, out string? optionNeeds);
            needs ??= optionNeeds ?? (text.Plain.Length == 0 ? $"an option without text ('{Cell.Show(name)}')" : null);
            options.Add(new(name, text, correct.Contains(name)));
        }

        if (needs is not null || prompt.Plain.Length == 0)
        {
            return needs is not null ? $"The item holds {needs}, which cannot be shown." : "The item asks nothing in words.";
        }

        if (guess.Find(said, path) is not { } topic)
        {
            return "No topic of the exam is known for it: neither the package's keywords and classifications nor its folder name one, and none was chosen.";
        }

        if (items.Find(id) is { } earlier)
        {
            return $"An item of this name stands in {earlier.File} already.";
        }

        AddNotes(root, declaration, notes);
        string title = Cell.Tidy(root.Value("title") ?? "");
        items.Add(new QuizItem(id, title.Length > 0 ? title : null, topic.Topic, topic.Subtopic, prompt, [.. options], several, null, file, Math.Max(1, ((IXmlLineInfo)root).LineNumber)), notes);
        return null;
    }

    private static bool IsForOthers(XElement element, List<string> notes)
    {
        if (!element.Is("rubric-block") || (element.Value("view") ?? "candidate").Split(' ').Contains("candidate"))
        {
            return false;
        }

        notes.Add("A text for the people who score was left out.");
        return true;
    }

    private static void AddNotes(XElement root, XElement declaration, List<string> notes)
    {
        if (root.Children("modal-feedback").Any())
        {
            notes.Add("Feedback that appears after an answer was left out.");
        }

        if (declaration.Children("mapping").Any() || root.Children("response-processing").Any(p => p.HasElements))
        {
            notes.Add("Its own scoring was not taken over: right means all correct options and no other.");
        }

        if (root.Children("stylesheet").Any())
        {
            notes.Add("Its style sheet was left out.");
        }
    }
}
