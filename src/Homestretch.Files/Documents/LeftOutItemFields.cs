namespace Homestretch.Files.Documents;

/// <summary>An item that could not be calibrated.</summary>
/// <param name="Item">Its label.</param>
/// <param name="Reason">Why, a sentence.</param>
public sealed record LeftOutItemFields(string Item, string Reason);
