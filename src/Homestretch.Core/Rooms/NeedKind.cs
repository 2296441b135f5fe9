namespace Homestretch.Core.Rooms;

/// <summary>Why a candidate needs the coach, the most pressing first.</summary>
public enum NeedKind
{
    /// <summary>The exam day has passed and nobody has recorded how it ended.</summary>
    NoResult,

    /// <summary>There is no plan, or none that has a block left: too little free time, or files that cannot be read.</summary>
    NoPlan,

    /// <summary>The exam is near and the pass chance is below even.</summary>
    BelowEven,

    /// <summary>The pass chance has fallen since last week.</summary>
    Fallen,

    /// <summary>Several sessions were missed in the last week.</summary>
    Missed,

    /// <summary>Nothing has been heard for days.</summary>
    Silent,

    /// <summary>The candidate has no personal link yet.</summary>
    NoLink,
}
