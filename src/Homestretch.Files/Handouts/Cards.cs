using System.Collections.Immutable;
using System.Xml.Linq;

using Homestretch.Core.Words;

using static Homestretch.Files.Pictures.Markup;

namespace Homestretch.Files.Handouts;

/// <summary>Words as cards to print and cut: the term on one side, the definitions on the other.</summary>
public static class Cards
{
    private const int Columns = 2;
    private const int PerSheet = 8;

    // Characters on one back from which smaller type is needed; the longest that files may hold fit in the smallest.
    private const int Longer = 150;
    private const int Longest = 450;

    /// <summary>One self-contained HTML document of sheets of eight cards, each followed by its back, for A4 and Letter; black on white, no script, nothing loaded.</summary>
    /// <param name="exam">Name of the exam.</param>
    /// <param name="words">The words; those without a definition get a card with room to write one.</param>
    public static string Html(string exam, ImmutableArray<Word> words)
    {
        XElement main = El(
            "main",
            El("h1", $"Words for {exam}"),
            El("p", ("class", "how"), words.IsEmpty
                ? "There are no words yet."
                : "Print on both sides at full size (100 %), turned over the long edge, and cut along the dashed lines. Say what a term means before you turn the card."));
        Word[][] sheets = [.. words.Chunk(PerSheet)];
        for (int i = 0; i < sheets.Length; i++)
        {
            main.Add(El("h2", $"Sheet {i + 1}, front"), Sheet(sheets[i], "sheet front", Front));
            main.Add(El("h2", $"Sheet {i + 1}, back"), Sheet(Mirrored(sheets[i]), i == sheets.Length - 1 ? "sheet back last" : "sheet back", Back));
        }

        return Paper.Html($"Words for {exam}", Look.Cards, Write(main));
    }

    // Turned over its long edge, a sheet has its left column on the right; a place that is empty on the front stays empty.
    private static Word?[] Mirrored(Word[] front)
    {
        Word?[] back = new Word?[(front.Length + Columns - 1) / Columns * Columns];
        for (int i = 0; i < front.Length; i++)
        {
            back[i + Columns - 1 - (2 * (i % Columns))] = front[i];
        }

        return back;
    }

    private static XElement Sheet(Word?[] words, string kind, Func<Word, XElement> side)
        => El("ul", ("class", kind), words.Select(w => w is null ? El("li", ("class", "card")) : side(w)));

    private static XElement Front(Word word)
        => El("li", ("class", "card"), El("p", ("class", "term"), word.Term), word.Topic is { } topic ? El("p", ("class", "topic"), topic) : null);

    private static XElement Back(Word word)
    {
        int length = (word.OwnDefinition?.Length ?? 0) + (word.CoachDefinition?.Length ?? 0);
        XElement card = El("li", ("class", length > Longest ? "card longest" : length > Longer ? "card longer" : "card"));
        foreach ((string whose, string? text) in new[] { ("In my words", word.OwnDefinition), ("The coach's words", word.CoachDefinition) })
        {
            if (text is not null)
            {
                card.Add(El("p", ("class", "whose"), whose), El("p", ("class", "text"), text));
            }
        }

        return card;
    }
}
