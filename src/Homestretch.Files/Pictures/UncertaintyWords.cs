using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;

namespace Homestretch.Files.Pictures;

/// <summary>Where the uncertainty of a score comes from, in plain words and whole percent.</summary>
public static class UncertaintyWords
{
    /// <summary>The sources in words, in the order of <see cref="ScoreUncertainty.Shares"/>.</summary>
    public static ImmutableArray<string> Sources { get; } =
    [
        "what the answers so far leave open about ability",
        "how fast study works",
        "whether the tests taken were easier or harder than the exam",
        "which items the exam draws",
        "luck in answering",
    ];

    /// <summary>What a person can do about it.</summary>
    public const string Advice = "Only what the answers leave open shrinks when more items are answered. The percentages are parts of the variance.";

    /// <summary>Each source's part in whole percent, in the order of <see cref="Sources"/>; they sum to 100.</summary>
    public static int[] Percent(ScoreUncertainty uncertainty)
    {
        ArgumentNullException.ThrowIfNull(uncertainty);
        return Apportionment.LargestRemainder(uncertainty.Shares, 100);
    }

    /// <summary>"The largest part of the uncertainty, 52 %, is luck in answering."</summary>
    public static string Largest(ScoreUncertainty uncertainty)
    {
        int[] percent = Percent(uncertainty);
        int largest = Array.IndexOf(percent, percent.Max());
        return $"The largest part of the uncertainty, {percent[largest]} %, is {Sources[largest]}.";
    }

    /// <summary>How far off the expected score the outcome may well be: "Two times in three the score lies within 9 items of what is expected."</summary>
    public static string Reach(ScoreUncertainty uncertainty)
    {
        ArgumentNullException.ThrowIfNull(uncertainty);
        int items = Math.Max(1, (int)Math.Round(uncertainty.StandardDeviation, MidpointRounding.AwayFromZero));
        return $"About two times in three the score lies within {Figures.Plural(items, "item")} of what is expected.";
    }
}
