using System.Collections.Immutable;

using NodaTime;

namespace Homestretch.Core.Planning.Replanning;

/// <summary>What a new plan changes against an earlier one, and what it costs to change so little.</summary>
/// <param name="MoveCost">How much pass chance a block that could stay must gain to be moved, 0 to 1.</param>
/// <param name="Kept">Blocks that stay as they were.</param>
/// <param name="Moved">Blocks that could have stayed and did not.</param>
/// <param name="Changes">Every difference, in time order.</param>
/// <param name="Earlier">Blocks of earlier plans that are not in this one: done, missed or dropped.</param>
/// <param name="KeptPassChance">Pass chance of keeping what can be kept and using no other time.</param>
/// <param name="FreshPassChance">Pass chance of the best plan made from scratch.</param>
/// <param name="FreshMoved">Blocks that could have stayed and do not in that plan.</param>
/// <param name="CalendarDay">The exam day of the first plan of the line; calendar events are named after it.</param>
public sealed record PlanRevision(
    double MoveCost,
    int Kept,
    int Moved,
    ImmutableArray<BlockRevision> Changes,
    ImmutableArray<EarlierBlock> Earlier,
    double KeptPassChance,
    double FreshPassChance,
    int FreshMoved,
    LocalDate CalendarDay)
{
    /// <summary>Blocks that are new: they have no forerunner in the earlier plan.</summary>
    public int Added => Changes.Count(c => c.Kind is RevisionKind.Added or RevisionKind.Replaced);

    /// <summary>Blocks that were still to come and have no follower in this plan.</summary>
    public int Dropped => Changes.Count(c => c.Kind is RevisionKind.Dropped or RevisionKind.Replaced && c.Before!.Fate == BlockFate.Planned);
}
