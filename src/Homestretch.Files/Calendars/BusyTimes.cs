using System.Collections.Immutable;

using NodaTime;

namespace Homestretch.Files.Calendars;

/// <summary>When a person is not free.</summary>
/// <param name="Busy">In time order; no two overlap or touch, none is empty.</param>
public sealed record BusyTimes(ImmutableArray<Interval> Busy);
