using System.Collections.Immutable;

namespace Homestretch.Core.Planning.Wishes;

/// <summary>What a coach wants of a plan, whatever it costs; topics by their names exactly as in the blueprint.</summary>
/// <param name="Avoid">Topics that get no block.</param>
/// <param name="Include">Topics that get one teaching sequence at least: a block to learn and a short quiz.</param>
/// <param name="AtLeast">Topics with a least number of minutes in the plan's blocks.</param>
/// <param name="Pins">Blocks that are at a given time.</param>
public sealed record CoachWishes(ImmutableArray<string> Avoid, ImmutableArray<string> Include, ImmutableArray<MinutesWish> AtLeast, ImmutableArray<PinWish> Pins)
{
    /// <summary>Whether nothing is wished.</summary>
    public bool IsEmpty => Avoid.IsEmpty && Include.IsEmpty && AtLeast.IsEmpty && Pins.IsEmpty;

    /// <summary>Every topic that is named, once.</summary>
    public ImmutableArray<string> Topics => [.. Avoid.Concat(Include).Concat(AtLeast.Select(m => m.Topic)).Concat(Pins.Select(p => p.Topic)).Distinct(StringComparer.Ordinal)];
}
