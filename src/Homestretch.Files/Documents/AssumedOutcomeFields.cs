using Homestretch.Core.Planning.Sensitivity;

namespace Homestretch.Files.Documents;

/// <summary>What would hold were an assumption's value another.</summary>
/// <param name="Value">That value.</param>
/// <param name="PassChance">Pass chance with the present plan, 0 to 1.</param>
/// <param name="BestPassChance">Pass chance with the plan that would be best then.</param>
/// <param name="MovedMinutes">Minutes of the present plan that the best plan would spend on other topics or not at all.</param>
public sealed record AssumedOutcomeFields(double Value, double PassChance, double BestPassChance, int MovedMinutes)
{
    internal static AssumedOutcomeFields Of(AssumedOutcome outcome) => new(outcome.Value, outcome.Kept, outcome.Best, outcome.MovedMinutes);
}
