using NodaTime;

namespace Homestretch.Core.Rooms;

/// <summary>What a list says of one candidate.</summary>
/// <param name="ExamDay">The day of the exam that holds.</param>
/// <param name="HeardOn">The last day on which results or study came in; the day of entering where none has.</param>
/// <param name="HasLink">Whether the candidate has a personal link.</param>
/// <param name="HasResult">Whether an official result is recorded: a pass, or one of the exam day or later.</param>
/// <param name="ByDay">What was planned and done.</param>
public sealed record CandidateFigures(LocalDate ExamDay, LocalDate HeardOn, bool HasLink, bool HasResult, FiguresByDay ByDay);
