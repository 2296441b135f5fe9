using Homestretch.Core.Planning.Sensitivity;

namespace Homestretch.Files.Documents;

/// <summary>What one assumption does to a plan.</summary>
/// <param name="Name">Its name in docs/model.md.</param>
/// <param name="Words">What it is.</param>
/// <param name="Value">The value in use.</param>
/// <param name="Source">Where its lowest and highest value come from.</param>
/// <param name="MattersToPlan">Whether keeping the plan could cost half a point of pass chance or more.</param>
/// <param name="Low">What would hold at its lowest plausible value.</param>
/// <param name="High">At its highest.</param>
public sealed record VariedAssumptionFields(string Name, string Words, double Value, string Source, bool MattersToPlan, AssumedOutcomeFields Low, AssumedOutcomeFields High)
{
    internal static VariedAssumptionFields Of(AssumptionEffect effect)
        => new(
            effect.Range.Name,
            effect.Range.Words,
            effect.Range.Value,
            effect.Range.Source,
            SensitivityTable.MattersToPlan(effect),
            AssumedOutcomeFields.Of(effect.Low),
            AssumedOutcomeFields.Of(effect.High));
}
