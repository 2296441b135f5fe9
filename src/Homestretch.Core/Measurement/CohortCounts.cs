using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;

namespace Homestretch.Core.Measurement;

/// <summary>A cohort's correct answers per topic on one test.</summary>
/// <param name="Test">The test's name.</param>
/// <param name="Topics">Topic names.</param>
/// <param name="Guess">Per topic, the chance of guessing right.</param>
/// <param name="Correct">Per person and topic, correct answers.</param>
/// <param name="Answered">Per person and topic, items answered; blanks count as answered wrongly, as they do in the standing.</param>
public sealed record CohortCounts(
    string Test,
    ImmutableArray<string> Topics,
    ImmutableArray<double> Guess,
    ImmutableArray<int[]> Correct,
    ImmutableArray<int[]> Answered)
{
    /// <summary>Number of people.</summary>
    public int Persons => Correct.Length;

    /// <summary>Per topic, each item's share of correct answers; empty where some results are counts.</summary>
    public ImmutableArray<double[]> ItemShares { get; init; } = [];

    /// <summary>Each person's share correct on one topic, 0 to 1; 0 for a person without items on it.</summary>
    /// <param name="topic">Index of the topic.</param>
    internal double[] Shares(int topic) => [.. Correct.Zip(Answered, (right, all) => all[topic] == 0 ? 0 : (double)right[topic] / all[topic])];

    /// <summary>The counts of one test; topics without items are left out.</summary>
    /// <param name="exam">The exam whose topics the attempts name.</param>
    /// <param name="test">The test's name.</param>
    /// <param name="sittings">Sittings of that test, one a person, with exact results only.</param>
    internal static CohortCounts Of(Exam exam, string test, IReadOnlyList<Attempt> sittings)
    {
        ILookup<string, Observation>[] byTopic = [.. sittings.Select(s => s.Observations.ToLookup(o => o.Topic, StringComparer.Ordinal))];
        ExamTopic[] topics = [.. exam.Topics.Where(t => byTopic.Any(p => p.Contains(t.Name)))];
        bool items = sittings.All(s => s.Observations.All(o => o is ItemResponse));
        return new CohortCounts(
            test,
            [.. topics.Select(t => t.Name)],
            [.. topics.Select(t => t.Section.GuessChance)],
            [.. byTopic.Select(person => topics.Select(t => person[t.Name].Sum(Right)).ToArray())],
            [.. byTopic.Select(person => topics.Select(t => person[t.Name].Sum(o => o.ItemCount)).ToArray())])
        {
            ItemShares = items ? [.. topics.Select(t => Shares(byTopic.SelectMany(p => p[t.Name].Cast<ItemResponse>())))] : [],
        };
    }

    private static double[] Shares(IEnumerable<ItemResponse> responses)
        => [.. responses.GroupBy(r => r.Item, StringComparer.OrdinalIgnoreCase).Select(item => item.Average(r => r.Correct ? 1.0 : 0.0))];

    private static int Right(Observation observation) => observation switch
    {
        ItemResponse response => response.Correct ? 1 : 0,
        TopicCount { IsExact: true } count => count.LowCorrect,
        _ => throw new ArgumentException($"{observation} does not say how many were right.", nameof(observation)),
    };
}
