namespace Homestretch.Files.Documents;

/// <summary>Where to be on the clock on exam day.</summary>
/// <param name="Section">The section.</param>
/// <param name="Item">After this item ...</param>
/// <param name="MinutesUsed">... at most so many minutes gone ...</param>
/// <param name="MinutesLeft">... and so many left.</param>
public sealed record PaceMarkFields(string Section, int Item, int MinutesUsed, int MinutesLeft);
