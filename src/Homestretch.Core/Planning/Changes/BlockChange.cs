namespace Homestretch.Core.Planning.Changes;

/// <summary>What would change a block.</summary>
/// <param name="Loss">What the pass chance would lose without it, as a difference of chances; below 0 where it would gain.</param>
/// <param name="Instead">The next best use of its time; null where there is none.</param>
/// <param name="InsteadLoss">What the pass chance would lose if the time went there.</param>
/// <param name="Quiz">The result of a quiz on its topic that would give its time to another one, nearest to the result to expect; null where none would.</param>
/// <param name="Sentence">The same in one or two sentences.</param>
public sealed record BlockChange(double Loss, string? Instead, double InsteadLoss, QuizThreshold? Quiz, string Sentence);
