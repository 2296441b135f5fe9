using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Planning.Calendar;

using NodaTime;

namespace Homestretch.Bench;

/// <summary>An invented case as large as they come: 150 items, 12 topics, two sections, a diagnostic of 60 items and two quizzes, three weeks of 60 blocks.</summary>
public static class LargeCase
{
    private static readonly int[] _items = [22, 18, 15, 12, 8, 5, 20, 16, 13, 10, 7, 4];

    /// <summary>The exam: each section must reach its own mark.</summary>
    public static Exam Exam { get; } = new(
        "An invented exam of 150 items",
        null,
        null,
        [Section("First section", 0, 6), Section("Second section", 6, 12)],
        OverallRule.EverySection,
        null,
        null,
        BandEdges.Default);

    /// <summary>The evidence.</summary>
    public static ImmutableArray<Attempt> Attempts { get; } =
    [
        new("A candidate", "diagnostic", AttemptKind.Diagnostic, new(2026, 11, 22), [.. Exam.Topics.SelectMany((t, i) => Answers(t.Name, i, 5))]),
        new("A candidate", "first quiz", AttemptKind.Quiz, new(2026, 11, 23), [TopicCount.Exact(Exam.Topics[0].Name, 6, 10)]),
        new("A candidate", "second quiz", AttemptKind.Quiz, new(2026, 11, 24), [TopicCount.Exact(Exam.Topics[6].Name, 4, 10)]),
    ];

    /// <summary>When the plan begins.</summary>
    public static ZonedDateTime From { get; } = new LocalDateTime(2026, 11, 25, 0, 0).InZoneStrictly(DateTimeZoneProviders.Tzdb["Europe/London"]);

    /// <summary>21 days later.</summary>
    public static LocalDate ExamDay { get; } = From.Date.PlusDays(21);

    /// <summary>Three hours every day: three blocks of 50 minutes, a few less on the last two days.</summary>
    public static FreeTime Free { get; } = new(
        From.Zone,
        [.. Enum.GetValues<IsoDayOfWeek>().Where(d => d != IsoDayOfWeek.None).Select(d => new WeeklyWindow(d, new(17, 0), new(20, 0)))],
        [],
        []);

    private static Section Section(string name, int from, int to)
    {
        int items = _items[from..to].Sum();
        return new(name, items, 0, 120, 4, new PercentCut(65), [.. Enumerable.Range(from, to - from).Select(i => new Topic($"Topic {i + 1}", Weight.Items(_items[i]), _items[i], []))]);
    }

    private static IEnumerable<Observation> Answers(string topic, int number, int count)
        => Enumerable.Range(0, count).Select(i => new ItemResponse(topic, null, $"{number}-{i}", ((number * 5) + (i * 3)) % 7 > 2, null, null));
}
