namespace Homestretch.Core.Deciding;

/// <summary>What a number of hours a week would mean.</summary>
/// <param name="WeeklyMinutes">Free minutes in an ordinary week.</param>
/// <param name="Now">Whether these are the minutes as they are.</param>
/// <param name="PassChance">Pass chance with the best plan, 0 to 1.</param>
/// <param name="StudyMinutes">Study minutes in that plan up to the exam.</param>
public sealed record HoursOption(int WeeklyMinutes, bool Now, double PassChance, int StudyMinutes);
