using System.Collections.Immutable;

using NodaTime;

namespace Homestretch.Core.Planning.Replanning;

/// <summary>A plan that was made before and that a new one is to change as little as possible.</summary>
/// <param name="From">When it begins.</param>
/// <param name="ExamDay">The day of the exam as it was then.</param>
/// <param name="LightFrom">The first day it keeps for light review.</param>
/// <param name="CalendarDay">The exam day of the first plan of the line; calendar events are named after it.</param>
/// <param name="Blocks">Its blocks, and those of the plans before it that are no longer in it, each under a name of its own.</param>
/// <param name="Levels">Expected share correct per topic when it was made, by topic name; topics may be missing.</param>
public sealed record EarlierPlan(
    ZonedDateTime From,
    LocalDate ExamDay,
    LocalDate LightFrom,
    LocalDate CalendarDay,
    ImmutableArray<EarlierBlock> Blocks,
    ImmutableDictionary<string, double> Levels);
