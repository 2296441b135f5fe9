using Homestretch.Core.Planning;

namespace Homestretch.Files.Documents;

/// <summary>What a policy leads to on exam day.</summary>
/// <param name="PassChance">Chance of passing after its blocks, 0 to 1.</param>
/// <param name="ExpectedCorrect">Expected correct answers after its blocks.</param>
/// <param name="Minutes">Study minutes it places.</param>
public sealed record PolicyFields(double PassChance, double ExpectedCorrect, int Minutes)
{
    internal static PolicyFields Of(PolicyOutcome outcome) => new(outcome.PassChance, outcome.ExpectedCorrect, outcome.Minutes);
}
