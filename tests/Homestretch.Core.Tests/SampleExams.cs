using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;

using NodaTime;

namespace Homestretch.Core.Tests;

/// <summary>Exams and evidence made for the tests.</summary>
internal static class SampleExams
{
    public static readonly LocalDate Today = new(2026, 11, 25);

    public static Topic Topic(string name, int items, params string[] subtopics)
    {
        int[] counts = subtopics.Length == 0 ? [] : Apportionment.LargestRemainder([.. subtopics.Select(_ => 1.0)], items);
        return new Topic(name, Weight.Items(items), items, [.. subtopics.Select((s, i) => new Subtopic(s, null, counts[i]))]);
    }

    public static Section Section(string name, CutScore? cut, int options, params Topic[] topics)
        => new(name, topics.Sum(t => t.Items), 0, null, options, cut, [.. topics]);

    public static Exam OneSection(CutScore cut, params Topic[] topics) => OneSection(cut, 4, topics);

    public static Exam OneSection(CutScore cut, int options, Topic[] topics)
        => new("Test certificate", null, null, [Section("Whole", cut, options, topics)], OverallRule.EverySection, null, null, BandEdges.Default);

    public static Exam Of(OverallRule rule, CutScore? total, params Section[] sections)
        => new("Test certificate", null, null, [.. sections], rule, total, null, BandEdges.Default);

    /// <summary>150 items, 12 topics, two sections.</summary>
    public static Exam Large()
        => Of(
            OverallRule.EverySection,
            null,
            Section("First", new PercentCut(65), 4, [.. new[] { 20, 16, 14, 12, 8, 5 }.Select((n, i) => Topic($"First {i + 1}", n))]),
            Section("Second", new PercentCut(62), 4, [.. new[] { 18, 17, 14, 11, 9, 6 }.Select((n, i) => Topic($"Second {i + 1}", n))]));

    public static ImmutableArray<Attempt> Diagnostic(params (string Topic, int Correct, int Items)[] counts)
        => [new Attempt("Someone", "diagnostic", AttemptKind.Diagnostic, Today, [.. counts.Select(c => (Observation)TopicCount.Exact(c.Topic, c.Correct, c.Items))])];

    /// <summary>Half of each topic's items answered, with these shares right, over and over.</summary>
    public static ImmutableArray<Attempt> HalfLength(Exam exam, params double[] shares)
        => Diagnostic([.. exam.Topics.Select((t, i) => (t.Name, (int)Math.Round(shares[i % shares.Length] * (t.Items / 2)), t.Items / 2))]);
}
