namespace Homestretch.Files.Evidences;

/// <summary>Columns of an evidence file.</summary>
internal enum EvidenceColumn
{
    Candidate,
    Attempt,
    Kind,
    Date,
    Topic,
    Subtopic,
    Item,
    Correct,
    Seconds,
    Sure,
    Items,
    Percent,
    Band,
    Note,
    Chosen,
    Key,
    AgainstExam,
}
