using System.Collections.Immutable;

namespace Homestretch.Core.Planning;

/// <summary>Study time shared among topics in equal pieces.</summary>
/// <param name="Sequence">Topic index of each piece, in the order in which the pieces were granted.</param>
/// <param name="Enough">True where further pieces would have added too little to be worth a person's rest.</param>
public sealed record Allocation(ImmutableArray<int> Sequence, bool Enough)
{
    /// <summary>Pieces per topic.</summary>
    public int[] Counts(int topics)
    {
        int[] counts = new int[topics];
        foreach (int topic in Sequence)
        {
            counts[topic]++;
        }

        return counts;
    }
}
