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

    /// <summary>How many of a topic's blocks teach: a third of them, half of them where the person is weak; they come first. What was studied before counts among them.</summary>
    /// <param name="blocks">Blocks to come.</param>
    /// <param name="band">Where the person stands on the topic.</param>
    /// <param name="past">Study of the topic so far.</param>
    public static int Teaching(int blocks, Band band, PastBlocks past = default)
        => past.Taught == 0
            ? Math.Min(Share(blocks + past.All, band), Share(blocks, Band.Weak))
            : Math.Clamp(Share(blocks + past.All, band) - past.Taught, 0, Math.Max(0, blocks - 1));

    /// <summary>The purposes of a topic's blocks in time order: learn first, a quiz last, practice between.</summary>
    /// <inheritdoc cref="Teaching" path="/param"/>
    public static BlockPurpose[] InOrder(int blocks, Band band, PastBlocks past = default)
    {
        BlockPurpose[] purposes = new BlockPurpose[blocks];
        int teaching = Teaching(blocks, band, past);
        Array.Fill(purposes, BlockPurpose.Practise);
        Array.Fill(purposes, BlockPurpose.Learn, 0, teaching);
        if (blocks > teaching)
        {
            purposes[^1] = BlockPurpose.Quiz;
        }

        return purposes;
    }

    private static int Share(int blocks, Band band)
        => blocks <= 2 ? Math.Min(1, blocks) : Math.Clamp(band == Band.Weak ? blocks / 2 : blocks / 3, 1, blocks - 2);
}
