namespace Homestretch.Core.Measurement;

/// <summary>Whether an item's answers follow its curve.</summary>
public enum CurveVerdict
{
    /// <summary>Too few people to say.</summary>
    Unknown,

    /// <summary>They follow it as well as chance lets expect.</summary>
    Follows,

    /// <summary>They stray further than chance does once in twenty items.</summary>
    Doubtful,

    /// <summary>They stray further than chance does once in a hundred items.</summary>
    Strays,
}
