namespace Homestretch.Core.Standing;

/// <summary>Level on a topic.</summary>
public enum Band
{
    /// <summary>Below the lower edge.</summary>
    Weak,

    /// <summary>Between the edges.</summary>
    Borderline,

    /// <summary>From the upper edge up.</summary>
    Strong,
}
