using NodaTime;

namespace Homestretch.Web.Printing;

/// <summary>A line in the list of people whose handouts can be printed.</summary>
/// <param name="Key">The case.</param>
/// <param name="Candidate">The person.</param>
/// <param name="ExamName">The exam's name.</param>
/// <param name="ExamDay">The day of the exam.</param>
/// <param name="Today">The day on which the case plays.</param>
public sealed record PersonToPrint(string Key, string Candidate, string ExamName, LocalDate ExamDay, LocalDate Today)
{
    /// <summary>Days until the exam; negative where it has passed.</summary>
    public int DaysLeft => Period.DaysBetween(Today, ExamDay);
}
