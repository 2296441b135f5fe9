using System.Collections.Immutable;

namespace Homestretch.Web.Api;

/// <summary>A case to enter: an exam, what is known of the person, and when there is time to study.</summary>
/// <param name="ExamDay">The day of the exam, ISO 8601, from today to half a year from now.</param>
/// <param name="Candidate">The person; may be left out where the evidence tells of one person only.</param>
/// <param name="Exam">The key of an exam that is kept; instead of <c>examFile</c>.</param>
/// <param name="ExamFile">An exam file (docs/exam-file.md); instead of <c>exam</c>.</param>
/// <param name="Evidence">Evidence files (docs/evidence-file.md), CSV or spreadsheets.</param>
/// <param name="EvidenceRows">Rows of evidence, beside or instead of files; then <c>candidate</c> is needed.</param>
/// <param name="FreeTime">The free-time file (docs/free-time-file.md).</param>
/// <param name="Busy">A calendar of busy times (docs/calendar-files.md).</param>
/// <param name="Cohort">Other people's results to learn from.</param>
/// <param name="ItemBank">Calibrated items (docs/item-bank.md).</param>
/// <param name="StudyLog">Study that was done (docs/study-log.md).</param>
public sealed record NewCase(
    string ExamDay,
    string? Candidate = null,
    string? Exam = null,
    NewFile? ExamFile = null,
    ImmutableArray<NewFile>? Evidence = null,
    ImmutableArray<EvidenceCells>? EvidenceRows = null,
    NewFile? FreeTime = null,
    NewFile? Busy = null,
    ImmutableArray<NewFile>? Cohort = null,
    NewFile? ItemBank = null,
    ImmutableArray<NewFile>? StudyLog = null);
