namespace Homestretch.Core.Planning;

/// <summary>How minutes are shared among topics.</summary>
public enum Policy
{
    /// <summary>No study at all: what the forecast says today.</summary>
    None,

    /// <summary>The order coaches use (common practice, no source): borderline-heavy, borderline-moderate, weak-heavy, then the rest if time allows.</summary>
    PracticeOrder,

    /// <summary>The minutes that make a pass most likely.</summary>
    Optimised,
}
