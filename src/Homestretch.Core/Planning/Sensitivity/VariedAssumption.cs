namespace Homestretch.Core.Planning.Sensitivity;

/// <summary>An assumption with what makes it another.</summary>
/// <param name="Range">The assumption.</param>
/// <param name="Change">The model's figures with this one at another value.</param>
internal sealed record VariedAssumption(AssumptionRange Range, Func<ModelFigures, double, ModelFigures> Change);
