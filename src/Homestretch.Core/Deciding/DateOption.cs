using NodaTime;

namespace Homestretch.Core.Deciding;

/// <summary>What one exam date would mean.</summary>
/// <param name="Date">The date.</param>
/// <param name="Booked">Whether it is the date booked now.</param>
/// <param name="PassChance">Pass chance with the best plan up to that date, 0 to 1.</param>
/// <param name="NoStudy">Pass chance on that date without further study.</param>
/// <param name="StudyMinutes">Study minutes in that plan.</param>
/// <param name="ExpectedFees">Fee for moving, if any, plus the retake fee times the chance of failing; null where no fee is known.</param>
/// <param name="Barred">Why the rules do not allow the date; null where they do.</param>
public sealed record DateOption(LocalDate Date, bool Booked, double PassChance, double NoStudy, int StudyMinutes, decimal? ExpectedFees, string? Barred);
