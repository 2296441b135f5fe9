using System.Collections.Immutable;

namespace Homestretch.Files.QuizItems;

/// <summary>A choice item to practise on. It is answered right by choosing every correct option and no other.</summary>
/// <param name="Id">Label or identifier, different from that of every other item of the same set.</param>
/// <param name="Title">Its title, where it has one.</param>
/// <param name="Topic">Topic of the exam.</param>
/// <param name="Subtopic">Subtopic of it, where that is known.</param>
/// <param name="Prompt">The question.</param>
/// <param name="Options">At least two, in the order of the file; at least one is correct.</param>
/// <param name="TakesSeveral">Whether several options may be chosen.</param>
/// <param name="Explanation">Why the answer is right, where the file says so.</param>
/// <param name="File">The file that it stands in.</param>
/// <param name="Line">The line it begins on, from 1.</param>
public sealed record QuizItem(
    string Id,
    string? Title,
    string Topic,
    string? Subtopic,
    QuizText Prompt,
    ImmutableArray<QuizOption> Options,
    bool TakesSeveral,
    QuizText? Explanation,
    string File,
    int Line);
