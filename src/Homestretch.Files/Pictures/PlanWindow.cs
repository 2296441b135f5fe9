using System.Collections.Immutable;

using Homestretch.Core.Planning.Calendar;

using NodaTime;

namespace Homestretch.Files.Pictures;

/// <summary>A stretch of time with blocks on it.</summary>
/// <param name="Start">Start.</param>
/// <param name="End">End.</param>
/// <param name="IsGround">Whether the free time itself is known, not only the blocks.</param>
/// <param name="Blocks">Blocks within it, in time order; may be empty.</param>
internal sealed record PlanWindow(ZonedDateTime Start, ZonedDateTime End, bool IsGround, ImmutableArray<StudyBlock> Blocks)
{
    /// <summary>Free windows of one day with their blocks, and blocks outside any of them, in time order.</summary>
    public static ImmutableArray<PlanWindow> Of(ImmutableArray<StudyBlock> blocks, ImmutableArray<Slot> slots, DateTimeZone zone)
    {
        List<PlanWindow> windows = [];
        HashSet<StudyBlock> placed = [];
        foreach (IGrouping<int, Slot> window in slots.GroupBy(s => s.Window))
        {
            Instant start = window.Min(s => s.Start);
            Instant end = window.Max(s => s.End);
            ImmutableArray<StudyBlock> within = [.. blocks.Where(b => b.Start.ToInstant() >= start && b.Start.ToInstant() < end && placed.Add(b))];
            windows.Add(new PlanWindow(start.InZone(zone), end.InZone(zone), true, within));
        }

        windows.AddRange(blocks.Where(b => !placed.Contains(b)).Select(b => new PlanWindow(b.Start, b.End, false, [b])));
        return [.. windows.OrderBy(w => w.Start.ToInstant())];
    }
}
