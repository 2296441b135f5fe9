namespace Homestretch.Files.StudyLogs;

/// <summary>Columns of a study log.</summary>
internal enum StudyLogColumn
{
    Candidate,
    Date,
    Topic,
    Subtopic,
    Minutes,
    How,
    Block,
    Note,
}
