using System.Collections.Immutable;

using Homestretch.Core.Standing;

namespace Homestretch.Core.AdaptiveTesting;

/// <summary>Where a diagnostic is, and how it goes on.</summary>
/// <param name="Rules">The rules it keeps.</param>
/// <param name="Given">Items given so far.</param>
/// <param name="Pass">How well the pass chance is known now.</param>
/// <param name="Levels">Where the person stands on the topics where study moves the pass chance; empty unless the levels are the target.</param>
/// <param name="Stock">What the bank still has.</param>
/// <param name="Stop">Why it need not go on; null when it should.</param>
/// <param name="Items">What to give next, in order; empty when it should stop.</param>
/// <param name="Doubt">What is not known of the target: the variance of the pass chance, or the variances of the chances of the levels together.</param>
public sealed record DiagnosticStep(
    DiagnosticRules Rules,
    int Given,
    PassSureness Pass,
    ImmutableArray<TopicStanding> Levels,
    BankStock Stock,
    StopReason? Stop,
    ImmutableArray<NextItem> Items,
    double Doubt)
{
    /// <summary>What is expected to be left of <see cref="Doubt"/> after the items: on average over their answers, and no more than this.</summary>
    public double DoubtAfter => Math.Max(0, Doubt - Items.Sum(i => i.Information));

    /// <summary>Share of <see cref="Doubt"/> that the items are expected to take away, 0 to 1.</summary>
    public double ShareToLearn => Doubt == 0 ? 0 : 1 - (DoubtAfter / Doubt);
}
