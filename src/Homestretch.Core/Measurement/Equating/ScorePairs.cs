using System.Collections.Immutable;

namespace Homestretch.Core.Measurement.Equating;

/// <summary>Scores of people who took both of two tests, fit to be equated.</summary>
public sealed record ScorePairs
{
    /// <summary>Fewer people than this say too little.</summary>
    public const int FewestPersons = 30;

    /// <summary>Fewer different scores than this on a test have no distribution to speak of.</summary>
    public const int FewestScores = 4;

    /// <param name="firstItems">Items of the test that is converted.</param>
    /// <param name="secondItems">Items of the test it is converted to; the number may differ.</param>
    /// <param name="pairs">One per person.</param>
    /// <exception cref="UnsuitableDataException">There are fewer than <see cref="FewestPersons"/> people, or hardly any spread on one of the tests.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A score lies outside 0 to the number of items.</exception>
    public ScorePairs(int firstItems, int secondItems, ImmutableArray<ScorePair> pairs)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(firstItems);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(secondItems);
        FirstItems = firstItems;
        SecondItems = secondItems;
        Pairs = pairs;
        First = [.. pairs.Select(p => p.First)];
        Second = [.. pairs.Select(p => p.Second)];
        Check(First, firstItems, nameof(firstItems));
        Check(Second, secondItems, nameof(secondItems));
        if (pairs.Length < FewestPersons)
        {
            throw new UnsuitableDataException($"Only {pairs.Length} {(pairs.Length == 1 ? "person" : "people")} took both tests; equating needs at least {FewestPersons}.");
        }

        RefuseNoSpread(First, "first");
        RefuseNoSpread(Second, "second");
    }

    /// <summary>Items of the test that is converted.</summary>
    public int FirstItems { get; }

    /// <summary>Items of the test it is converted to.</summary>
    public int SecondItems { get; }

    /// <summary>One per person.</summary>
    public ImmutableArray<ScorePair> Pairs { get; }

    /// <summary>Scores on the test that is converted.</summary>
    internal ImmutableArray<double> First { get; }

    /// <summary>Scores on the test it is converted to, in the same order.</summary>
    internal ImmutableArray<double> Second { get; }

    /// <summary>Correlation of the two scores: where it is low, a score on one test says little of the score on the other, equated or not.</summary>
    public double Correlation => Measurement.Correlation.Of(First.AsSpan(), Second.AsSpan())!.Value;

    private static void Check(ImmutableArray<double> scores, int items, string name)
    {
        if (scores.Any(s => s < 0 || s > items))
        {
            throw new ArgumentOutOfRangeException(name, items, $"Scores lie between 0 and the {items} items.");
        }
    }

    private static void RefuseNoSpread(ImmutableArray<double> scores, string which)
    {
        int different = scores.Distinct().Count();
        if (different < FewestScores)
        {
            throw new UnsuitableDataException(
                $"On the {which} test there {(different == 1 ? "is only one score" : $"are only {different} different scores")}; equating needs people who differ, at least {FewestScores} different scores.");
        }
    }
}
