namespace Homestretch.Core.Measurement;

/// <summary>What became of one item in one person's sitting.</summary>
public enum ItemScore
{
    /// <summary>The item was not part of this person's test; nothing can be said.</summary>
    NotGiven,

    /// <summary>Left blank, as was every later item: the person ran out of time.</summary>
    NotReached,

    /// <summary>Left blank, though a later item was answered.</summary>
    Omitted,

    /// <summary>Answered wrongly.</summary>
    Wrong,

    /// <summary>Answered correctly.</summary>
    Right,
}
