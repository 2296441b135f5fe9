namespace Homestretch.Files.Candidates;

/// <summary>Columns of a candidates sheet.</summary>
internal enum CandidatesColumn
{
    Candidate,
    ExamDay,
    Free,
    Zone,
    DailyLimit,
    DaysOff,
    Note,
}
