namespace Homestretch.Files.Documents;

/// <summary>One exam date of a <see cref="DateDocument"/>.</summary>
/// <param name="Date">The date, ISO 8601.</param>
/// <param name="Booked">Whether it is the date booked now.</param>
/// <param name="PassChance">Pass chance with the best plan up to that date, 0 to 1.</param>
/// <param name="NoStudy">Pass chance on that date without further study.</param>
/// <param name="StudyMinutes">Study minutes in that plan.</param>
/// <param name="ExpectedFees">Fees for moving and the retake fee times the chance of failing; null where no fee is given.</param>
/// <param name="Barred">Why the rules do not allow the date; null where they do.</param>
public sealed record DateOptionFields(string Date, bool Booked, double PassChance, double NoStudy, int StudyMinutes, decimal? ExpectedFees, string? Barred);
