using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;

using NodaTime;

namespace Homestretch.Bench;

/// <summary>An invented case as long as they come: 200 items, 30 topics, two sections, a diagnostic of 90 items, 90 days of three blocks.</summary>
public static class LongCase
{
    private const int TopicsPerSection = 15;
    private const int DiagnosticItemsPerTopic = 3;
    private const int Days = 90;

    /// <summary>The exam: each section must reach its own mark.</summary>
    public static Exam Exam { get; } = new("An invented exam of 200 items", null, null, [Section("First section", 0), Section("Second section", 1)], OverallRule.EverySection, null, null, BandEdges.Default);

    /// <summary>The evidence.</summary>
    public static ImmutableArray<Attempt> Attempts { get; } =
    [
        new("A candidate", "diagnostic", AttemptKind.Diagnostic, LargeCase.From.Date.PlusDays(-1), [.. Exam.Topics.Select((t, i) => TopicCount.Exact(t.Name, ((i * 5) + 1) % (DiagnosticItemsPerTopic + 1), DiagnosticItemsPerTopic))]),
    ];

    /// <summary>90 days after <see cref="LargeCase.From"/>.</summary>
    public static LocalDate ExamDay { get; } = LargeCase.From.Date.PlusDays(Days);

    private static Section Section(string name, int number)
    {
        int[] items = [.. Enumerable.Range(0, TopicsPerSection).Select(i => 2 + ((i * 7) % 10))];
        items[0] += 100 - items.Sum();
        return new(name, 100, 0, 120, 4, new PercentCut(65), [.. items.Select((n, i) => new Topic($"Topic {number + 1}.{i + 1}", Weight.Items(n), n, []))]);
    }
}
