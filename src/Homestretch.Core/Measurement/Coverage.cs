using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;

namespace Homestretch.Core.Measurement;

/// <summary>A test's items by topic against the blueprint.</summary>
public static class Coverage
{
    /// <summary>Fewer items than this say next to nothing about a topic on its own. Common practice, no source.</summary>
    public const int FewestItems = 4;

    private const double TooFewTo = 0.75;
    private const double OverFrom = 1.25;
    private const int LeastGap = 2;
    private const double TypicalShare = 0.6;
    private const double Confidence = 0.9;

    /// <summary>One line per topic of the exam, in its order.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="topics">The topic of each item of the test.</param>
    public static ImmutableArray<TopicCoverage> Of(Exam exam, IEnumerable<string> topics)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(topics);
        ILookup<string, string> byTopic = topics.ToLookup(t => t, StringComparer.Ordinal);
        int total = exam.Topics.Sum(t => byTopic[t.Name].Count());
        int[] expected = Apportionment.LargestRemainder([.. exam.Topics.Select(t => (double)t.Items)], total);
        return [.. exam.Topics.Select((t, i) => Line(t, byTopic[t.Name].Count(), expected[i]))];
    }

    private static TopicCoverage Line(ExamTopic topic, int items, int expected)
    {
        Statistic half = items == 0 ? Statistic.Refused("The test has no item on this topic.") : Statistic.Of(HalfWidth(items));
        if (topic.Items == 0)
        {
            return new TopicCoverage(topic, items, expected, half, CoverageVerdict.Fair, "");
        }

        if (items == 0)
        {
            return new TopicCoverage(topic, 0, expected, half, CoverageVerdict.Missing, "No item: what is said about this topic rests on the others.");
        }

        if (items < FewestItems || (items <= TooFewTo * expected && expected - items >= LeastGap))
        {
            return new TopicCoverage(topic, items, expected, half, CoverageVerdict.TooFew, string.Create(
                CultureInfo.InvariantCulture,
                $"Too few: {items} {(items == 1 ? "item" : "items")}{(expected > items ? $" where its share would be {expected}" : "")}; on its own the share correct may be off by {half.Value * 100:0} points."));
        }

        return items >= OverFrom * expected && items - expected >= LeastGap
            ? new TopicCoverage(topic, items, expected, half, CoverageVerdict.OverSampled, $"Over-sampled: {items} items where its share would be {expected}.")
            : new TopicCoverage(topic, items, expected, half, CoverageVerdict.Fair, "");
    }

    private static double HalfWidth(int items)
    {
        // Linear between the two whole counts around 60 %.
        double centre = TypicalShare * items;
        int below = (int)Math.Floor(centre);
        double part = centre - below;
        double low = Half(below, items);
        return part < 1e-9 ? low : (low * (1 - part)) + (Half(below + 1, items) * part);
    }

    private static double Half(int correct, int items)
    {
        ProportionInterval interval = ProportionInterval.Wilson(correct, items, Confidence);
        return (interval.High - interval.Low) / 2;
    }
}
