using Homestretch.Core.Evidence;

namespace Homestretch.Core.Planning.Calendar;

/// <summary>How a block of each purpose is studied.</summary>
public static class BlockPurposeKinds
{
    /// <summary>The kind of study a block is for.</summary>
    public static StudyKind Kind(this BlockPurpose purpose) => purpose switch
    {
        BlockPurpose.Learn => StudyKind.Teaching,
        BlockPurpose.Review => StudyKind.Review,
        _ => StudyKind.PracticeItems,
    };
}
