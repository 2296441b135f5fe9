namespace Homestretch.Files.QuizItems;

/// <summary>One answer to choose.</summary>
/// <param name="Id">Different from that of every other option of the item: a letter, or the identifier in the file.</param>
/// <param name="Text">What it says.</param>
/// <param name="IsCorrect">Whether choosing it is right.</param>
public sealed record QuizOption(string Id, QuizText Text, bool IsCorrect);
