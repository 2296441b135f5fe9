using System.Collections.Immutable;

using NodaTime;

namespace Homestretch.Core.Planning.Calendar;

/// <summary>The slots that a person's free time holds before the exam.</summary>
/// <param name="Slots">In time order; no two overlap, and a break lies between any two.</param>
/// <param name="LightFrom">The first day on which only light review belongs.</param>
/// <param name="Notes">What a person should know about them, in plain sentences: no free time, exam too near, the daily cap reached, and the like.</param>
public sealed record SlotSearch(ImmutableArray<Slot> Slots, LocalDate LightFrom, ImmutableArray<string> Notes)
{
    /// <summary>Study minutes in all slots.</summary>
    public int Minutes => Slots.Sum(s => s.Minutes);

    /// <summary>Whether one of the slots is just this time.</summary>
    public bool Holds(Interval time) => Slots.Any(s => s.Start == time.Start && s.End == time.End);
}
