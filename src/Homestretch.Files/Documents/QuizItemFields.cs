using System.Collections.Immutable;

using Homestretch.Files.QuizItems;

namespace Homestretch.Files.Documents;

/// <summary>An item to practise on.</summary>
/// <param name="Id">Label or identifier.</param>
/// <param name="Title">Its title; null where it has none.</param>
/// <param name="Topic">Topic of the exam.</param>
/// <param name="Subtopic">Subtopic; null where that is not known.</param>
/// <param name="Prompt">The question in plain text.</param>
/// <param name="PromptHtml">The same as markup that a page may show as it is.</param>
/// <param name="Options">Answers to choose, in the order of the file.</param>
/// <param name="TakesSeveral">Whether several may be chosen.</param>
/// <param name="Explanation">Why the answer is right, in plain text; null where the file does not say.</param>
/// <param name="File">The file that it stands in.</param>
/// <param name="Line">The line it begins on.</param>
public sealed record QuizItemFields(
    string Id,
    string? Title,
    string Topic,
    string? Subtopic,
    string Prompt,
    string PromptHtml,
    ImmutableArray<QuizOptionFields> Options,
    bool TakesSeveral,
    string? Explanation,
    string File,
    int Line)
{
    /// <summary>The fields of an item.</summary>
    internal static QuizItemFields Of(QuizItem item) => new(
        item.Id,
        item.Title,
        item.Topic,
        item.Subtopic,
        item.Prompt.Plain,
        item.Prompt.Html,
        [.. item.Options.Select(o => new QuizOptionFields(o.Id, o.Text.Plain, o.Text.Html, o.IsCorrect))],
        item.TakesSeveral,
        item.Explanation?.Plain,
        item.File,
        item.Line);
}
