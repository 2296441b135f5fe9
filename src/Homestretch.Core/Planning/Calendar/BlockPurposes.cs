using Homestretch.Core.Evidence;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Planning.Calendar;

/// <summary>What blocks of each purpose are, and how many of each a topic gets.</summary>
public static class BlockPurposes
{
    /// <summary>The kind of study a block is for.</summary>
    public static StudyKind Kind(this BlockPurpose purpose) => purpose switch
    {
        BlockPurpose.Learn => StudyKind.Teaching,
        BlockPurpose.Review => StudyKind.Review,
        _ => StudyKind.PracticeItems,
    };

    /// <summary>How many of a topic's blocks teach: a third of them, half of them where the person is weak; they come first.</summary>
    public static int Teaching(int blocks, Band band)
        => blocks <= 2 ? Math.Min(1, blocks) : Math.Clamp(band == Band.Weak ? blocks / 2 : blocks / 3, 1, blocks - 2);

    /// <summary>The purposes of a topic's blocks in time order: learn first, a quiz last, practice between.</summary>
    public static BlockPurpose[] InOrder(int blocks, Band band)
    {
        BlockPurpose[] purposes = new BlockPurpose[blocks];
        Array.Fill(purposes, BlockPurpose.Practise);
        Array.Fill(purposes, BlockPurpose.Learn, 0, Teaching(blocks, band));
        if (blocks >= 2)
        {
            purposes[^1] = BlockPurpose.Quiz;
        }

        return purposes;
    }
}
