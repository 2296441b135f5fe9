using System.Collections.Immutable;

namespace Homestretch.Core.Deciding;

/// <summary>What more, or fewer, hours a week would do, and whether it is time to stop.</summary>
/// <param name="Options">Fewest hours first.</param>
/// <param name="EnoughWeeklyMinutes">Fewest minutes a week of the options whose pass chance is within <see cref="HoursAdvisor.SmallGain"/> of the most hours'; the signal to stop where it is no more than now.</param>
/// <param name="Reason">What the figures say, in a sentence.</param>
public sealed record HoursAdvice(ImmutableArray<HoursOption> Options, int EnoughWeeklyMinutes, string Reason);
