namespace Homestretch.Core.Measurement;

/// <summary>Where to be on the clock.</summary>
/// <param name="Item">After this item ...</param>
/// <param name="MinutesUsed">... at most so many minutes should be gone ...</param>
/// <param name="MinutesLeft">... and so many left.</param>
public readonly record struct PaceMark(int Item, int MinutesUsed, int MinutesLeft);
