using System.Collections.Immutable;

namespace Homestretch.Files.QuizItems;

/// <summary>What files of items gave.</summary>
/// <param name="Items">In the order of the files.</param>
/// <param name="Skipped">Items, tests and passages that could not be taken over at all, each with the reason.</param>
/// <param name="Notes">What is missing from items that were taken over, such as pictures.</param>
public sealed record QuizItemSet(ImmutableArray<QuizItem> Items, ImmutableArray<ItemRemark> Skipped, ImmutableArray<ItemRemark> Notes);
