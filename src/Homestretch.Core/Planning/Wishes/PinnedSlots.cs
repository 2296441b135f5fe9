using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Planning.Calendar;

using NodaTime;

namespace Homestretch.Core.Planning.Wishes;

/// <summary>Slots with the pinned blocks among them.</summary>
/// <param name="Search">All slots.</param>
/// <param name="Refusals">Why blocks cannot be pinned, one sentence each.</param>
internal sealed record PinnedSlots(SlotSearch Search, ImmutableArray<string> Refusals)
{
    /// <summary>Finds them.</summary>
    /// <param name="pins">The blocks to pin.</param>
    /// <inheritdoc cref="WishedPlanner.Plan" path="/param"/>
    public static PinnedSlots Find(FreeTime free, IReadOnlyList<Interval> busy, ZonedDateTime from, LocalDate examDay, ImmutableArray<PinWish> pins)
    {
        PinWish[] inOrder = [.. pins.OrderBy(p => p.Start)];
        List<string> refusals = [];
        List<Interval> blocks = [];
        for (int i = 0; i < inOrder.Length; i++)
        {
            int most = i + 1 < inOrder.Length ? (int)Math.Min(SlotFinder.LongestMinutes, (inOrder[i + 1].Start - inOrder[i].Start).TotalMinutes - SlotFinder.BreakMinutes) : SlotFinder.LongestMinutes;
            if (Longest(free, busy, from, examDay, inOrder[i].Start, most) is { } block)
            {
                blocks.Add(block);
            }
            else
            {
                refusals.Add($"{Named(inOrder[i], free)} cannot be pinned: {Why(free, busy, from, examDay, inOrder[i].Start, most)}.");
            }
        }

        SlotSearch search = SlotFinder.Find(free, busy, from, examDay, kept: blocks);
        refusals.AddRange(blocks.Where(b => refusals.Count == 0 && !search.Holds(b)).Select(b =>
            $"{Named(inOrder.First(p => p.Start == b.Start), free)} cannot be pinned beside the others: the daily cap is {free.DailyCapMinutes} minutes, and the last days hold three short blocks each."));
        return new(search, [.. refusals]);
    }

    /// <summary>A pinned block in words.</summary>
    public static string Named(PinWish pin, FreeTime free)
        => string.Create(CultureInfo.InvariantCulture, $"{pin.Topic} on {pin.Start.InZone(free.Zone).LocalDateTime:ddd d MMM HH:mm}");

    private static Interval? Longest(FreeTime free, IReadOnlyList<Interval> busy, ZonedDateTime from, LocalDate examDay, Instant start, int most)
    {
        for (int minutes = most / SlotFinder.StepMinutes * SlotFinder.StepMinutes; minutes >= SlotFinder.ShortestMinutes; minutes -= SlotFinder.StepMinutes)
        {
            Interval block = new(start, start + Duration.FromMinutes(minutes));
            if (SlotFinder.Find(free, busy, from, examDay, kept: [block]).Holds(block))
            {
                return block;
            }
        }

        return null;
    }

    private static string Why(FreeTime free, IReadOnlyList<Interval> busy, ZonedDateTime from, LocalDate examDay, Instant start, int most)
    {
        if (start < from.ToInstant())
        {
            return "it is before the plan begins";
        }

        if (start.InZone(free.Zone).Date >= examDay)
        {
            return "nothing is planned on the day of the exam or later";
        }

        if (most < SlotFinder.ShortestMinutes)
        {
            return $"the next pinned block is too near; a block takes {SlotFinder.ShortestMinutes} minutes at least, and a break of {SlotFinder.BreakMinutes}";
        }

        Instant end = start + Duration.FromMinutes(SlotFinder.ShortestMinutes);
        return SlotFinder.IsBusy(busy, new(start, end))
            ? "the person is busy then"
            : $"the free time holds no block of {SlotFinder.ShortestMinutes} minutes from then on";
    }
}
