namespace Homestretch.Core.Planning.Wishes;

/// <summary>The wishes that a plan obeys, and what they cost.</summary>
/// <param name="Wishes">The wishes.</param>
/// <param name="PassChance">What they take from the pass chance of the same policy without them; below 0 where they happen to add to it.</param>
/// <param name="Sentence">The same in words.</param>
public sealed record WishCost(CoachWishes Wishes, double PassChance, string Sentence);
