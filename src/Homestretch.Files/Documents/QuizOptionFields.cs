namespace Homestretch.Files.Documents;

/// <summary>One answer to choose.</summary>
/// <param name="Id">Letter, or identifier in the file.</param>
/// <param name="Text">What it says, in plain text.</param>
/// <param name="Html">The same as markup that a page may show as it is.</param>
/// <param name="Correct">Whether choosing it is right.</param>
public sealed record QuizOptionFields(string Id, string Text, string Html, bool Correct);
