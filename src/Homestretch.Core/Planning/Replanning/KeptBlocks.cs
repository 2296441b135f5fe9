using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Planning.Replanning;

/// <summary>The blocks of an earlier plan that can stay where they are, and the slots around them.</summary>
internal sealed class KeptBlocks
{
    private readonly Dictionary<(Instant Start, int Minutes, int Topic), EarlierBlock> staying = [];

    /// <param name="task">What the new plan has to go by.</param>
    public KeptBlocks(ReplanTask task)
    {
        Dictionary<Interval, EarlierBlock> byTime = task.ToCome.ToDictionary(b => b.Time);
        Search = task.SlotsAround(byTime.Keys.OrderBy(t => t.Start));
        EarlierBlock?[] blocks = [.. Search.Slots.Select(s => byTime.GetValueOrDefault(new Interval(s.Start, s.End)))];
        Home = [.. blocks.Select(b => b is null ? BlockPlacer.Unused : task.TopicOf(b))];
        FreeUnmet(task.Standing, blocks);
        foreach (IGrouping<int, int> window in Enumerable.Range(0, Home.Length).GroupBy(i => Search.Slots[i].Window))
        {
            ObeyWindow(window);
        }

        for (int i = 0; i < Home.Length; i++)
        {
            if (Home[i] >= 0)
            {
                staying.Add((Search.Slots[i].Start, Search.Slots[i].Minutes, Home[i]), blocks[i]!);
            }
        }
    }

    /// <summary>Slots: the blocks that can stay just as they are, and what free time is left.</summary>
    public SlotSearch Search { get; }

    /// <summary>Topic of the block that can stay in each slot, or <see cref="BlockPlacer.Unused"/>.</summary>
    public int[] Home { get; }

    /// <summary>The block of the earlier plan that a piece is, or null.</summary>
    public EarlierBlock? In(PlacedPiece piece) => staying.GetValueOrDefault((piece.Slot.Start, piece.Slot.Minutes, piece.Topic));

    /// <summary>Whether a block can stay.</summary>
    public bool CanStay(EarlierBlock block) => staying.ContainsValue(block);

    /// <summary>Blocks that can stay and do not in a draft.</summary>
    public int Moved(PlanDraft draft) => staying.Count - draft.Pieces.Count(p => In(p) is not null);

    // Nothing new in the last days: a block that was to teach does not become a review of what was never met.
    private void FreeUnmet(CandidateStanding standing, EarlierBlock?[] blocks)
    {
        HashSet<int> studied = [.. Enumerable.Range(0, Home.Length).Where(i => !Search.Slots[i].LightOnly).Select(i => Home[i])];
        for (int i = 0; i < Home.Length; i++)
        {
            bool unmet = Home[i] >= 0 && !studied.Contains(Home[i]) && standing.Topics[Home[i]].Level.Band == Band.Weak && standing.Study.Of(Home[i]).IsEmpty;
            if (unmet && Search.Slots[i].LightOnly && blocks[i]!.Purpose != BlockPurpose.Review)
            {
                Home[i] = BlockPlacer.Unused;
            }
        }
    }

    // Windows may have grown together since: two topics at most, each side by side.
    private void ObeyWindow(IEnumerable<int> window)
    {
        List<int> met = [];
        foreach (int slot in window.Where(i => Home[i] >= 0))
        {
            bool goesOn = met.Count > 0 && met[^1] == Home[slot];
            if (!goesOn && (met.Contains(Home[slot]) || met.Count == BlockPlacer.TopicsPerWindow))
            {
                Home[slot] = BlockPlacer.Unused;
            }
            else if (!goesOn)
            {
                met.Add(Home[slot]);
            }
        }
    }
}
