namespace Homestretch.Core.Evidence;

/// <summary>One line of evidence about one topic (or one of its subtopics).</summary>
/// <param name="Topic">The topic's name exactly as in the blueprint.</param>
/// <param name="Subtopic">The subtopic's name exactly as in the blueprint, where the evidence names one.</param>
public abstract record Observation(string Topic, string? Subtopic)
{
    /// <summary>Items this observation rests on.</summary>
    public abstract int ItemCount { get; }
}
