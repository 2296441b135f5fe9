namespace Homestretch.Core.Measurement;

/// <summary>Standard errors of an item's parameters; null for a part that was not estimated, or where the data do not give one.</summary>
/// <param name="Discrimination">Of the slope.</param>
/// <param name="Difficulty">Of the difficulty, in logits.</param>
/// <param name="Guessing">Of the guessing chance.</param>
public readonly record struct ItemCurveErrors(double? Discrimination, double? Difficulty, double? Guessing);
