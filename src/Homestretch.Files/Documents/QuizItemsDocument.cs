using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Files.QuizItems;

namespace Homestretch.Files.Documents;

/// <summary>Items to practise on, as read from files.</summary>
/// <param name="Exam">Name of the exam.</param>
/// <param name="Topics">Items on each topic, in the order of the exam; topics without items are there too.</param>
/// <param name="Items">In the order of the files.</param>
/// <param name="Skipped">What could not be taken over at all, each with the reason.</param>
/// <param name="Notes">What is missing from items that were taken over.</param>
public sealed record QuizItemsDocument(
    string Exam,
    ImmutableArray<TopicItemsFields> Topics,
    ImmutableArray<QuizItemFields> Items,
    ImmutableArray<ItemRemark> Skipped,
    ImmutableArray<ItemRemark> Notes)
{
    /// <summary>The document of a set of items.</summary>
    public static QuizItemsDocument Of(Exam exam, QuizItemSet set)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(set);
        return new(
            exam.Name,
            [.. exam.Topics.Select(t => new TopicItemsFields(t.Name, set.Items.Count(i => i.Topic == t.Name)))],
            [.. set.Items.Select(QuizItemFields.Of)],
            set.Skipped,
            set.Notes);
    }
}
