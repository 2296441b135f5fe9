namespace Homestretch.Core.Measurement;

/// <summary>An item that could not be calibrated while the others could.</summary>
/// <param name="Item">Its label.</param>
/// <param name="Reason">Why, in one sentence.</param>
public sealed record LeftOutItem(string Item, string Reason);
