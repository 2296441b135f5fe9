using System.Collections.Immutable;

using Homestretch.Core.Evidence;

namespace Homestretch.Core.Measurement.Equating;

/// <summary>Who took both of two tests, close enough in time for the tests, and not the study in between, to make the difference.</summary>
/// <param name="FirstItems">Items of the first test; 0 where nobody took both.</param>
/// <param name="SecondItems">Items of the second test.</param>
/// <param name="People">One per person.</param>
/// <param name="OnlyBands">People left out because a report gives bands and not counts.</param>
/// <param name="TooFarApart">People left out because too many days lie between.</param>
/// <param name="OtherLength">People left out because their test had another number of items than most people's.</param>
public sealed record BothTests(int FirstItems, int SecondItems, ImmutableArray<BothSittings> People, int OnlyBands, int TooFarApart, int OtherLength)
{
    /// <summary>With more days in between, study changes scores more than tests differ (an assumption): at the assumed pace of learning an hour a day for a week, over eight topics, is worth 2 to 3 points.</summary>
    public const int UsualMostDays = 7;

    /// <summary>Finds them.</summary>
    /// <param name="attempts">Everybody's attempts.</param>
    /// <param name="first">Which are sittings of the first test.</param>
    /// <param name="second">Which are sittings of the second test.</param>
    /// <param name="mostDays">Most days between the two, zero or more.</param>
    public static BothTests Find(IEnumerable<Attempt> attempts, Func<Attempt, bool> first, Func<Attempt, bool> second, int mostDays = UsualMostDays)
    {
        ArgumentNullException.ThrowIfNull(attempts);
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        ArgumentOutOfRangeException.ThrowIfNegative(mostDays);
        List<BothSittings> found = [];
        int onlyBands = 0;
        int tooFarApart = 0;
        foreach (IGrouping<string, Attempt> person in attempts.GroupBy(a => a.Candidate, StringComparer.OrdinalIgnoreCase))
        {
            Attempt[] firsts = [.. person.Where(first)];
            Attempt[] seconds = [.. person.Where(second)];
            if (firsts.Length == 0 || seconds.Length == 0)
            {
                continue;
            }

            BothSittings? closest = (
                from a in firsts
                from b in seconds
                where !ReferenceEquals(a, b)
                let shareA = ObservedShare.Of(a.Observations)
                let shareB = ObservedShare.Of(b.Observations)
                where shareA is not null && shareB is not null
                select new BothSittings(a, shareA.Value, b, shareB.Value)).MinBy(s => s.DaysApart);
            if (closest is null)
            {
                onlyBands++;
            }
            else if (closest.DaysApart > mostDays)
            {
                tooFarApart++;
            }
            else
            {
                found.Add(closest);
            }
        }

        // The length most people's tests had; of equally many, the longer.
        (int First, int Second) length = found
            .GroupBy(s => (First: s.FirstShare.Items, Second: s.SecondShare.Items))
            .OrderByDescending(g => g.Count()).ThenByDescending(g => g.Key)
            .Select(g => g.Key)
            .FirstOrDefault();
        ImmutableArray<BothSittings> people = [.. found.Where(s => (s.FirstShare.Items, s.SecondShare.Items) == length)];
        return new BothTests(length.First, length.Second, people, onlyBands, tooFarApart, found.Count - people.Length);
    }

    /// <summary>Their scores, fit to be equated.</summary>
    /// <exception cref="UnsuitableDataException">There are too few people, or hardly any spread.</exception>
    public ScorePairs Scores() => new(
        Math.Max(1, FirstItems),
        Math.Max(1, SecondItems),
        [.. People.Select(s => new ScorePair(s.FirstShare.Correct, s.SecondShare.Correct))]);
}
