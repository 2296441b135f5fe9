namespace Homestretch.Files.WordLists;

/// <summary>Columns of a list of words.</summary>
internal enum WordColumn
{
    Term,
    Topic,
    Definition,
    CoachDefinition,
    Noted,
    Answers,
}
