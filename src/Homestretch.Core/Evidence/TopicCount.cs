namespace Homestretch.Core.Evidence;

/// <summary>How many items of a topic were answered correctly, as an exact count or, from a score report, as a band of counts.</summary>
/// <param name="Topic">The topic's name.</param>
/// <param name="Subtopic">The subtopic's name, if known.</param>
/// <param name="LowCorrect">Fewest correct answers the report allows.</param>
/// <param name="HighCorrect">Most correct answers the report allows; the same as <paramref name="LowCorrect"/> for an exact count.</param>
/// <param name="Items">Items of the topic in that attempt.</param>
public sealed record TopicCount(string Topic, string? Subtopic, int LowCorrect, int HighCorrect, int Items) : Observation(Topic, Subtopic)
{
    /// <summary>An exact count.</summary>
    public static TopicCount Exact(string topic, int correct, int items, string? subtopic = null) => new(topic, subtopic, correct, correct, items);

    /// <summary>Whether the count is known exactly.</summary>
    public bool IsExact => LowCorrect == HighCorrect;

    /// <inheritdoc/>
    public override int ItemCount => Items;
}
