namespace Homestretch.Core.Planning.Calendar;

/// <summary>What a block is for. Within a topic they come in this order.</summary>
public enum BlockPurpose
{
    /// <summary>Learn from material that teaches.</summary>
    Learn,

    /// <summary>Practise on items with feedback.</summary>
    Practise,

    /// <summary>A short quiz, then go over what went wrong.</summary>
    Quiz,

    /// <summary>Light review; nothing new.</summary>
    Review,
}
