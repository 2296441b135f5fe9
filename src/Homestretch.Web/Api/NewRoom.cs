using System.Collections.Immutable;

namespace Homestretch.Web.Api;

/// <summary>A room to import: one exam, one sheet of people, and their results.</summary>
/// <param name="Sheet">The candidates sheet (docs/candidates-sheet.md), CSV or a spreadsheet.</param>
/// <param name="Evidence">Evidence of everybody in the sheet (docs/evidence-file.md), one file or several, CSV or spreadsheets.</param>
/// <param name="Exam">The key of an exam that is kept; instead of <c>examFile</c>.</param>
/// <param name="ExamFile">An exam file (docs/exam-file.md); instead of <c>exam</c>.</param>
/// <param name="Zone">The IANA time zone of rows that name none.</param>
/// <param name="ExamDay">The exam day of rows that give none, ISO 8601, from today to half a year from now.</param>
/// <param name="Cohort">Other people's results to learn from, kept with every case.</param>
/// <param name="ItemBank">Calibrated items (docs/item-bank.md), kept with every case.</param>
/// <param name="Lines">The lines of the sheet, from 1, whose people are imported; left out for everybody. The preview passes it over.</param>
public sealed record NewRoom(
    NewFile Sheet,
    ImmutableArray<NewFile> Evidence,
    string? Exam = null,
    NewFile? ExamFile = null,
    string? Zone = null,
    string? ExamDay = null,
    ImmutableArray<NewFile>? Cohort = null,
    NewFile? ItemBank = null,
    ImmutableArray<int>? Lines = null);
