namespace Homestretch.Core.AdaptiveTesting;

/// <summary>Why an item was chosen.</summary>
public enum ItemReason
{
    /// <summary>Of all items that may come next its answer is expected to tell most, or nearly so.</summary>
    TellsMost,

    /// <summary>The same among the items of topics that have fallen behind their share of the blueprint.</summary>
    TopicBehind,
}
