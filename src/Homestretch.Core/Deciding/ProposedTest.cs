using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;

namespace Homestretch.Core.Deciding;

/// <summary>A test a person might take before the exam.</summary>
/// <param name="Kind">Practice exam, quiz or diagnostic.</param>
/// <param name="Items">Items per topic, in the exam's order; zero or more.</param>
/// <param name="Minutes">Minutes it takes with going over it, taken from study; above zero.</param>
public sealed record ProposedTest(AttemptKind Kind, ImmutableArray<int> Items, int Minutes)
{
    private const double MinutesPerItem = 1.25;

    // Going over the answers takes about half as long as giving them (common practice, no source).
    private const double WithReview = 1.5;

    /// <summary>Another full practice exam: all scored items, in the exam's time.</summary>
    public static ProposedTest PracticeExam(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        double minutes = exam.Sections.Sum(s => s.Minutes ?? (MinutesPerItem * s.ScoredItems));
        return new ProposedTest(AttemptKind.PracticeExam, [.. exam.Topics.Select(t => t.Items)], (int)Math.Ceiling(minutes * WithReview));
    }

    /// <summary>A quiz of so many items on one topic.</summary>
    public static ProposedTest Quiz(Exam exam, int topic, int items)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return new ProposedTest(AttemptKind.Quiz, [.. exam.Topics.Select((_, t) => t == topic ? items : 0)], (int)Math.Ceiling(items * MinutesPerItem * WithReview));
    }
}
