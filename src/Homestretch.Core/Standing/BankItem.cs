namespace Homestretch.Core.Standing;

/// <summary>A calibrated item of an item bank.</summary>
/// <param name="Topic">The topic's name exactly as in the blueprint.</param>
/// <param name="Item">The item's label; different within its topic and test.</param>
/// <param name="Model">The model it was calibrated with.</param>
/// <param name="Curve">Its parameters, on the scale of the calibration.</param>
/// <param name="DiscriminationError">Standard error of the slope, if known.</param>
/// <param name="DifficultyError">Standard error of the difficulty, if known.</param>
/// <param name="GuessingError">Standard error of the guessing chance, if known.</param>
/// <param name="Test">The test that gives the label its meaning, compared without regard to case; null where the label means the same item in every test.</param>
public sealed record BankItem(
    string Topic,
    string Item,
    ItemModel Model,
    ItemCurve Curve,
    double? DiscriminationError = null,
    double? DifficultyError = null,
    double? GuessingError = null,
    string? Test = null);
