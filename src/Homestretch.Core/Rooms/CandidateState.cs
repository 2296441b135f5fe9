using System.Collections.Immutable;

namespace Homestretch.Core.Rooms;

/// <summary>One candidate as seen on a day.</summary>
/// <param name="DaysLeft">Days to the exam; below 0 once it has passed.</param>
/// <param name="PassChance">The pass chance with the plan, 0 to 1; null where there is no plan.</param>
/// <param name="Change">By how much it has moved in the last seven days, or since the first plan where that is younger; 0 where there is no plan.</param>
/// <param name="Planned">Minutes planned in the last seven days, today not among them.</param>
/// <param name="Done">Minutes studied in those days.</param>
/// <param name="Needs">Why the candidate needs the coach, the most pressing reason first; empty where nothing calls for it.</param>
public sealed record CandidateState(int DaysLeft, double? PassChance, double Change, int Planned, int Done, ImmutableArray<Need> Needs)
{
    /// <summary>The order of a list by need: the most pressing reason first, then the nearest exam; candidates whose exam is over come last.</summary>
    public (int, int, int) Order => (Needs.IsEmpty ? int.MaxValue : (int)Needs[0].Kind, DaysLeft < 0 ? 1 : 0, Math.Abs(DaysLeft));
}
