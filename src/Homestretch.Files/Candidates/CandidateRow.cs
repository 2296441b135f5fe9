using System.Collections.Immutable;

using Homestretch.Core.Planning.Calendar;

using NodaTime;

namespace Homestretch.Files.Candidates;

/// <summary>One row of a candidates sheet: what was understood of it, and what is wrong with it.</summary>
/// <param name="File">The file as the person named it.</param>
/// <param name="Line">Line, from 1.</param>
/// <param name="Candidate">The person's name; null where there is none that can be used.</param>
/// <param name="ExamDay">The day of the exam; null where it could not be read.</param>
/// <param name="Free">When the person can study; null where that could not be read.</param>
/// <param name="Problems">Everything wrong with the row; empty where it can be used.</param>
public sealed record CandidateRow(string File, int Line, string? Candidate, LocalDate? ExamDay, FreeTime? Free, ImmutableArray<FileProblem> Problems);
