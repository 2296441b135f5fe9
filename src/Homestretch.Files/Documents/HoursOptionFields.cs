namespace Homestretch.Files.Documents;

/// <summary>One number of hours a week of an <see cref="HoursDocument"/>.</summary>
/// <param name="WeeklyMinutes">Free minutes in an ordinary week.</param>
/// <param name="Now">Whether these are the minutes as they are.</param>
/// <param name="PassChance">Pass chance with the best plan, 0 to 1.</param>
/// <param name="StudyMinutes">Study minutes in that plan.</param>
public sealed record HoursOptionFields(int WeeklyMinutes, bool Now, double PassChance, int StudyMinutes);
