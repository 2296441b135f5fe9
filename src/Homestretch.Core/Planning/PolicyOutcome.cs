namespace Homestretch.Core.Planning;

/// <summary>What a policy leads to on exam day.</summary>
/// <param name="Policy">The policy.</param>
/// <param name="PassChance">Chance of passing after its blocks, 0 to 1.</param>
/// <param name="ExpectedCorrect">Expected correct answers after its blocks.</param>
/// <param name="Minutes">Study minutes it places.</param>
public sealed record PolicyOutcome(Policy Policy, double PassChance, double ExpectedCorrect, int Minutes);
