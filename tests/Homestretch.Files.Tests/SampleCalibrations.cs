using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Calibration;
using Homestretch.Core.Evidence;
using Homestretch.Core.Measurement;

using NodaTime;

namespace Homestretch.Files.Tests;

/// <summary>Calibration reports on invented people, computed as for anyone.</summary>
public static class SampleCalibrations
{
    /// <summary>40 people, of all chances, some left out.</summary>
    public static CalibrationReport Room { get; } = Outcomes("Certificate", 40, i => Math.Clamp(i + ((i * 7 % 5) - 2), 0, 40), withGaps: true);

    /// <summary>12 people with good chances; all passed.</summary>
    public static CalibrationReport AllPassed { get; } = Outcomes("Certificate", 12, _ => 40, from: 28);

    /// <summary>12 people with good chances; none passed.</summary>
    public static CalibrationReport NonePassed { get; } = Outcomes("Certificate", 12, _ => 0, from: 28);

    /// <summary>A name that would be markup if it were not encoded.</summary>
    public static CalibrationReport Hostile { get; } = Outcomes("</title><script>alert(1)</script> & \u0001", 12, i => 2 * i);

    /// <summary>One test of 12 items and 20 people, split.</summary>
    public static CalibrationReport Split { get; } = SplitOf(people: 20);

    /// <summary>The same with people enough to learn from.</summary>
    public static CalibrationReport LearnedSplit { get; } = SplitOf(people: 70);

    /// <summary>All of them.</summary>
    public static IEnumerable<CalibrationReport> All => [Room, AllPassed, NonePassed, Hostile, Split, LearnedSplit];

    private static Exam Named(string name, int items)
        => new(name, null, null, [new Section("Whole", items, 0, null, 4, new PercentCut(60), [new Topic("Topic", Weight.Items(items), items, [])])], OverallRule.EverySection, null, null, BandEdges.Default);

    private static CalibrationReport Outcomes(string name, int people, Func<int, int> right, int from = 0, bool withGaps = false)
    {
        Exam exam = Named(name, 40);
        LocalDate day = new(2026, 11, 25);
        List<Attempt> attempts = [];
        for (int i = 0; i < people; i++)
        {
            string who = $"Person {i}";
            attempts.Add(new Attempt(who, "diagnostic", AttemptKind.Diagnostic, day, [TopicCount.Exact("Topic", from + (i * (40 - from) / people), 40)]));
            ImmutableArray<Observation> result = withGaps && i == 3
                ? [new TopicCount("Topic", null, 20, 30, 40)]
                : [TopicCount.Exact("Topic", right(i) / (i == 5 && withGaps ? 2 : 1), i == 5 && withGaps ? 20 : 40)];
            if (!withGaps || i != 7)
            {
                attempts.Add(new Attempt(who, "exam", AttemptKind.Official, day.PlusDays(14), result));
            }
        }

        return CalibrationReport.Of(exam, "official results", OutcomeStudy.Run(exam, attempts));
    }

    private static CalibrationReport SplitOf(int people)
    {
        Exam exam = Named("Certificate", 12);
        ItemScores answers = new(
            [.. Enumerable.Range(1, 12).Select(i => new TestItem($"{i}", "Topic", null, 0.25))],
            [.. Enumerable.Range(0, people).Select(p => new PersonAnswers(
                $"Person {p}",
                [.. Enumerable.Range(0, 12).Select(i => new ItemAnswer(((p * 5) + (i * 7)) % 13 < 3 + (p % 9) ? ItemScore.Right : ItemScore.Wrong))]))]);
        return CalibrationReport.Of(exam, "autumn diagnostic", SplitStudy.Run(exam, answers, new SplitStudyOptions(5, 1)));
    }
}
