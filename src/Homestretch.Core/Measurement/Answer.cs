namespace Homestretch.Core.Measurement;

/// <summary>One person's answer to one item, as the models see it.</summary>
public enum Answer : byte
{
    /// <summary>Answered, and not correct.</summary>
    Wrong = 0,

    /// <summary>Answered correctly.</summary>
    Right = 1,

    /// <summary>Not given to this person: says nothing about them.</summary>
    Missing = 2,
}
