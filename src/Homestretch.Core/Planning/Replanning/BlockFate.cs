namespace Homestretch.Core.Planning.Replanning;

/// <summary>What has become of a block of an earlier plan.</summary>
public enum BlockFate
{
    /// <summary>Still to come, as far as the earlier plan knew.</summary>
    Planned,

    /// <summary>Done, on its day or another.</summary>
    Done,

    /// <summary>Its time passed without it.</summary>
    Missed,

    /// <summary>Taken out of the plan before its time came.</summary>
    Dropped,
}
