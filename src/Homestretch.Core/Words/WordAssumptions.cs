using Homestretch.Core.Learning;

namespace Homestretch.Core.Words;

/// <summary>What is taken for granted about words; docs/model.md says what each means.</summary>
/// <remarks>All values are assumptions of ours. Forgetting and spacing are those of <see cref="Learning"/>.</remarks>
public sealed record WordAssumptions
{
    /// <summary>The documented defaults.</summary>
    public static WordAssumptions Default { get; } = new();

    /// <summary>Forgetting, spacing, and what reading and recall leave.</summary>
    public LearningAssumptions Learning { get; init; } = LearningAssumptions.Default;

    /// <summary>How well a middling word sticks: with strength S it is known with chance 1 - exp(-sticking S). One fresh reading is strength 1.</summary>
    public double Sticking { get; init; } = 1;

    /// <summary>Standard deviation of the logarithm of that between words: after one miss and a second reading a word is recalled the next day with 49 %, after five misses with 34 %.</summary>
    public double StickingLogSd { get; init; } = 1.5;

    /// <summary>A recall that adds less than this to the chance of knowing the word on exam day is not worth its time.</summary>
    public double LeastGain { get; init; } = 0.01;

    /// <summary>Seconds that one recall takes, with a look at the definition.</summary>
    public double SecondsPerRecall { get; init; } = 20;

    /// <summary>Recalls that fit into some minutes.</summary>
    public int Recalls(int minutes) => (int)Math.Floor((minutes * 60 / SecondsPerRecall) + 1e-9);
}
