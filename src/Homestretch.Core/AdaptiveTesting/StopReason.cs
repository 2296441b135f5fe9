namespace Homestretch.Core.AdaptiveTesting;

/// <summary>Why a diagnostic need not go on.</summary>
public enum StopReason
{
    /// <summary>What it was to find out is settled.</summary>
    Settled,

    /// <summary>The best item left is not expected to change much.</summary>
    LittleToLearn,

    /// <summary>As many items as agreed have been given.</summary>
    LongEnough,

    /// <summary>The bank has no item left that may be given.</summary>
    NothingLeft,
}
