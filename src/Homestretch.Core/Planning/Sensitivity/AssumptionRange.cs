namespace Homestretch.Core.Planning.Sensitivity;

/// <summary>A figure that the model takes for granted, and between which values it may plausibly lie.</summary>
/// <param name="Name">Its name in docs/model.md.</param>
/// <param name="Words">What it is, in a few words that go on a sentence.</param>
/// <param name="Value">The value in use.</param>
/// <param name="Low">The lowest plausible value.</param>
/// <param name="High">The highest.</param>
/// <param name="Source">Where the two come from: a publication, or "assumption" with what they mean.</param>
public sealed record AssumptionRange(string Name, string Words, double Value, double Low, double High, string Source);
