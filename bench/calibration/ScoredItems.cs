using System.Collections.Immutable;

namespace Homestretch.Calibration;

/// <summary>People's answers to the same items, for studies that split them.</summary>
/// <param name="Topics">Topic of each item.</param>
/// <param name="Guess">Per item, the chance of guessing right.</param>
/// <param name="Answers">Per person and item: 1 correct, 0 not, null not answered.</param>
public sealed record ScoredItems(ImmutableArray<string> Topics, ImmutableArray<double> Guess, ImmutableArray<bool?[]> Answers)
{
    /// <summary>Number of items.</summary>
    public int Items => Topics.Length;

    /// <summary>Only the people who answered every item.</summary>
    public ScoredItems CompleteOnly() => this with { Answers = [.. Answers.Where(a => a.All(x => x is not null))] };
}
