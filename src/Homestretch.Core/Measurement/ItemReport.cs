using System.Collections.Immutable;

namespace Homestretch.Core.Measurement;

/// <summary>How one item worked.</summary>
/// <param name="Item">The item.</param>
/// <param name="Given">People whose test held it.</param>
/// <param name="Answered">People who answered it.</param>
/// <param name="Omitted">People who left it blank and went on.</param>
/// <param name="NotReached">People who did not get as far.</param>
/// <param name="Right">Correct answers.</param>
/// <param name="Difficulty">p-value: correct answers among those who reached it, 0 to 1; high is easy.</param>
/// <param name="Discrimination">Corrected point-biserial correlation: with the share correct on the other items.</param>
/// <param name="Biserial">The same as a biserial correlation; may exceed 1 in odd data.</param>
/// <param name="UpperLower">p-value of the best 27 % less that of the lowest 27 % by the other items (Kelley 1939).</param>
/// <param name="Options">The distractor table; empty where no choice is known.</param>
/// <param name="Concerns">What is odd about it.</param>
/// <param name="Remarks">The flags in words, one sentence each.</param>
public sealed record ItemReport(
    TestItem Item,
    int Given,
    int Answered,
    int Omitted,
    int NotReached,
    int Right,
    Statistic Difficulty,
    Statistic Discrimination,
    Statistic Biserial,
    Statistic UpperLower,
    ImmutableArray<OptionReport> Options,
    ImmutableArray<ItemConcern> Concerns,
    ImmutableArray<string> Remarks);
