using System.Collections.Immutable;

namespace Homestretch.Core.Measurement;

/// <summary>One person's answers to all items of a test.</summary>
/// <param name="Person">The person's name.</param>
/// <param name="Answers">In the order of the items.</param>
public sealed record PersonAnswers(string Person, ImmutableArray<ItemAnswer> Answers)
{
    /// <summary>Correct answers.</summary>
    public int Correct => Answers.Sum(a => a.Credit);

    /// <summary>Whether the person was given every item.</summary>
    public bool Complete => Answers.All(a => a.Given);
}
