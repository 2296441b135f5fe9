using System.Collections.Immutable;

namespace Homestretch.Core.Measurement;

/// <summary>A cohort's correct answers per topic on one test.</summary>
/// <param name="Topics">Topic names.</param>
/// <param name="Guess">Per topic, the chance of guessing right.</param>
/// <param name="Correct">Per person and topic, correct answers.</param>
/// <param name="Answered">Per person and topic, items answered.</param>
public sealed record CohortCounts(ImmutableArray<string> Topics, ImmutableArray<double> Guess, ImmutableArray<int[]> Correct, ImmutableArray<int[]> Answered)
{
    /// <summary>Number of people.</summary>
    public int Persons => Correct.Length;
}
