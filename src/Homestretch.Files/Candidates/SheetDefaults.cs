using NodaTime;

namespace Homestretch.Files.Candidates;

/// <summary>What holds for every row of a candidates sheet that does not say otherwise, and between which days an exam may lie.</summary>
/// <param name="Zone">The time zone; null where every row must name its own.</param>
/// <param name="ExamDay">The exam day; null where every row must give its own.</param>
/// <param name="First">The first day an exam may be on.</param>
/// <param name="Last">The last day an exam may be on.</param>
public sealed record SheetDefaults(DateTimeZone? Zone, LocalDate? ExamDay, LocalDate First, LocalDate Last);
