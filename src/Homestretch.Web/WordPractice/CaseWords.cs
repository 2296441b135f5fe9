using System.Collections.Immutable;

using Homestretch.Core.Words;
using Homestretch.Store;

namespace Homestretch.Web.WordPractice;

/// <summary>The words of one case.</summary>
/// <param name="Words">Every word, in the order in which they were noted first.</param>
/// <param name="Rows">Every row that counts, older ones of a term too, in the order they came.</param>
/// <param name="Recalls">Every recall that counts, in the order they came.</param>
/// <param name="Plan">Which of them to recall today; null from the exam day on.</param>
public sealed record CaseWords(ImmutableArray<Word> Words, ImmutableArray<WordRow> Rows, ImmutableArray<RecallRow> Recalls, WordPlan? Plan)
{
    /// <summary>The word of a term, whose case does not matter; null where there is none.</summary>
    public Word? Find(string? term) => Words.FirstOrDefault(w => Same(w.Term, term));

    /// <summary>The rows of a term.</summary>
    public ImmutableArray<WordRow> RowsOf(string term) => [.. Rows.Where(r => Same(r.Term, term))];

    /// <summary>The row that says what counts of a term.</summary>
    public WordRow Latest(string term) => Rows.Last(r => Same(r.Term, term));

    /// <summary>Minutes that today's words take, at least 1; 0 where none wait.</summary>
    public int MinutesToday => Plan is { ForToday.IsEmpty: false } plan ? Math.Max(1, (int)Math.Round(plan.ForToday.Length * WordAssumptions.Default.SecondsPerRecall / 60)) : 0;

    /// <summary>Whether two texts are the same term.</summary>
    public static bool Same(string term, string? other) => string.Equals(term, other, StringComparison.OrdinalIgnoreCase);
}
