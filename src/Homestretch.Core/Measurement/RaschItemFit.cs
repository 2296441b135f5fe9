namespace Homestretch.Core.Measurement;

/// <summary>How well one item's answers follow the Rasch model.</summary>
/// <param name="Item">Its label.</param>
/// <param name="Infit">Mean square of residuals, weighted by information: about 1; above 1.3 noisy, below 0.7 too regular (common practice).</param>
/// <param name="Outfit">Unweighted mean square of standardised residuals: the same, but moved most by surprising answers of persons far from the item.</param>
/// <param name="Persons">Persons it rests on: those with some right and some wrong answers who answered the item.</param>
public sealed record RaschItemFit(string Item, double Infit, double Outfit, int Persons);
