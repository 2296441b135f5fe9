namespace Homestretch.Files.QuizItems;

/// <summary>Columns of a sheet of items.</summary>
internal enum QuizItemColumn
{
    Item,
    Title,
    Topic,
    Subtopic,
    Prompt,
    OptionA,
    OptionB,
    OptionC,
    OptionD,
    OptionE,
    OptionF,
    OptionG,
    OptionH,
    Correct,
    Explanation,
}
