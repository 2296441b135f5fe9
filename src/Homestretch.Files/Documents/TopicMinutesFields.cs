using Homestretch.Core.Planning;

namespace Homestretch.Files.Documents;

/// <summary>Minutes a plan gives a topic, and why.</summary>
/// <param name="Topic">The topic.</param>
/// <param name="Section">Its section.</param>
/// <param name="Minutes">Study minutes in all its blocks, reviews included.</param>
/// <param name="Order">Place in the order of study, from 1.</param>
/// <param name="ScoreGain">What these minutes add to the expected correct answers on the topic by exam day.</param>
/// <param name="Reason">One sentence.</param>
/// <param name="Change">What would take time from it, one sentence; null where that was not worked out.</param>
public sealed record TopicMinutesFields(string Topic, string Section, int Minutes, int Order, double ScoreGain, string Reason, string? Change)
{
    internal static TopicMinutesFields Of(TopicMinutes minutes, string? change)
        => new(minutes.Topic.Name, minutes.Topic.Section.Name, minutes.Minutes, minutes.Order, minutes.ScoreGain, minutes.Reason, change);
}
