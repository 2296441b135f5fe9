using NodaTime;

namespace Homestretch.Core.Blueprints;

/// <summary>What the exam owner allows after a failed attempt.</summary>
/// <param name="WaitingDays">Days to wait, zero or more.</param>
/// <param name="AttemptsPerYear">Attempts in twelve months, or null where no limit is published.</param>
public sealed record RetakeRule(int WaitingDays, int? AttemptsPerYear)
{
    /// <summary>The first day on which the exam may be sat again; null when it was never sat.</summary>
    /// <param name="sittings">Days of earlier official attempts, in any order.</param>
    public LocalDate? EarliestDate(IReadOnlyCollection<LocalDate> sittings)
    {
        if (sittings.Count == 0)
        {
            return null;
        }

        LocalDate[] latestFirst = [.. sittings.OrderDescending()];
        LocalDate earliest = latestFirst[0].PlusDays(WaitingDays);

        // With a limit of k a year, the k-th latest sitting must be twelve months past.
        if (AttemptsPerYear is { } limit && latestFirst.Length >= limit)
        {
            earliest = LocalDate.Max(earliest, latestFirst[limit - 1].PlusYears(1));
        }

        return earliest;
    }
}
