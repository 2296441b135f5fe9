using Homestretch.Core.Planning.Calendar;

namespace Homestretch.Core.Planning.Replanning;

/// <summary>One difference between a new plan and the earlier one.</summary>
/// <param name="Kind">How they differ.</param>
/// <param name="Before">The block of the earlier plan; null where there was none.</param>
/// <param name="After">The block of the new plan; null where there is none.</param>
/// <param name="Gain">What the change adds to the pass chance, all else as it is; null where a block is only gone, where its time can no longer be used, or where only the purpose differs.</param>
/// <param name="Reason">Why, as the rest of a sentence.</param>
public sealed record BlockRevision(RevisionKind Kind, EarlierBlock? Before, StudyBlock? After, double? Gain, string Reason)
{
    /// <summary>Whether the block of the earlier plan could have stayed and does not.</summary>
    public bool CouldStay { get; init; }
}
