namespace Homestretch.Files.Evidences;

/// <summary>What a row says about the answer to one item, as written.</summary>
/// <param name="Correct">Whether it was right.</param>
/// <param name="Chosen">The option chosen.</param>
/// <param name="Key">The right option.</param>
/// <param name="HasOptions">Whether the file has a column for the option chosen, so that an empty cell means a blank.</param>
internal readonly record struct ItemAnswerText(string Correct, string Chosen, string Key, bool HasOptions);
