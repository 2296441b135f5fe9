using System.Collections.Immutable;

namespace Homestretch.Files.QuizItems;

/// <summary>Gathers items from several files.</summary>
internal sealed class ItemCollector
{
    private readonly List<QuizItem> items = [];
    private readonly List<ItemRemark> skipped = [];
    private readonly List<ItemRemark> notes = [];
    private readonly Dictionary<string, QuizItem> byId = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>The item of this name, or null.</summary>
    public QuizItem? Find(string id) => byId.GetValueOrDefault(id);

    /// <summary>Takes an item whose name is new.</summary>
    public void Add(QuizItem item, IEnumerable<string> itemNotes)
    {
        byId.Add(item.Id, item);
        items.Add(item);
        notes.AddRange(itemNotes.Distinct().Select(n => new ItemRemark(item.File, item.Id, n)));
    }

    /// <summary>Notes what could not be taken over.</summary>
    public void Skip(string file, string item, string reason) => skipped.Add(new(file, item, reason));

    /// <summary>Everything so far.</summary>
    public QuizItemSet Whole() => new([.. items], [.. skipped], [.. notes]);
}
