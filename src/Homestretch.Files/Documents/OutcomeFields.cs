namespace Homestretch.Files.Documents;

/// <summary>What the exam would bring.</summary>
/// <param name="PassChance">Chance of passing, 0 to 1.</param>
/// <param name="ExpectedCorrect">Expected correct answers.</param>
public sealed record OutcomeFields(double PassChance, double ExpectedCorrect);
