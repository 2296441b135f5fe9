namespace Homestretch.Core.Planning.Replanning;

/// <summary>How a new plan differs from an earlier one at one block.</summary>
public enum RevisionKind
{
    /// <summary>A missed block has a new time.</summary>
    MadeUp,

    /// <summary>A block to come has another time.</summary>
    Moved,

    /// <summary>A time that was one topic's is now another's.</summary>
    Replaced,

    /// <summary>A block is gone, and nothing stands at its time.</summary>
    Dropped,

    /// <summary>A block at a time that was free.</summary>
    Added,

    /// <summary>A block at the same time on the same topic, for another purpose.</summary>
    Repurposed,
}
