namespace Homestretch.Core.Measurement;

/// <summary>One person's answer to one item.</summary>
/// <param name="Score">What became of the item.</param>
/// <param name="Chosen">The option chosen, where known.</param>
/// <param name="Seconds">Time taken, above zero, where known.</param>
/// <param name="Sureness">How sure the person said they were, 0 (a guess) to 1 (certain), where asked.</param>
public readonly record struct ItemAnswer(ItemScore Score, string? Chosen = null, double? Seconds = null, double? Sureness = null)
{
    /// <summary>Whether the item was part of the person's test.</summary>
    public bool Given => Score != ItemScore.NotGiven;

    /// <summary>Whether the person got as far as the item.</summary>
    public bool Reached => Score is not (ItemScore.NotGiven or ItemScore.NotReached);

    /// <summary>Whether there is an answer, right or wrong.</summary>
    public bool Answered => Score is ItemScore.Wrong or ItemScore.Right;

    /// <summary>1 for a correct answer, otherwise 0: an exam gives nothing for a blank.</summary>
    public int Credit => Score == ItemScore.Right ? 1 : 0;
}
