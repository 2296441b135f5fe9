using NodaTime;

namespace Homestretch.Core.Planning.Wishes;

/// <summary>A block that is to be at a given time; it lasts as long as a block can there.</summary>
/// <param name="Start">When it starts.</param>
/// <param name="Topic">The topic's name.</param>
public readonly record struct PinWish(Instant Start, string Topic);
