namespace Homestretch.Files.QuizItems;

/// <summary>Something in a file that was not taken over as it stands.</summary>
/// <param name="File">The file.</param>
/// <param name="Item">Identifier of the item or resource; the file's name where it has none.</param>
/// <param name="Text">What was not taken over and why, as a sentence.</param>
public sealed record ItemRemark(string File, string Item, string Text);
