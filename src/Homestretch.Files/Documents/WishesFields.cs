using System.Collections.Immutable;

using Homestretch.Core.Planning.Wishes;

using NodaTime;

namespace Homestretch.Files.Documents;

/// <summary>A coach's wishes, obeyed whatever they cost.</summary>
/// <param name="Avoid">Topics without a block.</param>
/// <param name="Include">Topics with a block to learn and a quiz at least.</param>
/// <param name="AtLeast">Topics with a least number of minutes.</param>
/// <param name="Pins">Blocks at a given time.</param>
/// <param name="Cost">What the wishes take from the pass chance.</param>
/// <param name="Sentence">The same in words.</param>
public sealed record WishesFields(ImmutableArray<string> Avoid, ImmutableArray<string> Include, ImmutableArray<LeastFields> AtLeast, ImmutableArray<PinFields> Pins, double Cost, string Sentence)
{
    internal static WishesFields Of(WishCost wishes, DateTimeZone zone) => new(
        wishes.Wishes.Avoid,
        wishes.Wishes.Include,
        [.. wishes.Wishes.AtLeast.Select(m => new LeastFields(m.Topic, m.Minutes))],
        [.. wishes.Wishes.Pins.Select(p => new PinFields(PlanDocument.Time(p.Start.InZone(zone)), p.Topic))],
        wishes.PassChance,
        wishes.Sentence);
}
