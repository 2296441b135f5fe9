using System.Collections.Immutable;

namespace Homestretch.Core.Measurement;

/// <summary>Whether a test that several people took deserves trust.</summary>
/// <param name="Scores">The answers it rests on.</param>
/// <param name="Findings">What a coach should know, the most important first, in sentences.</param>
/// <param name="Items">How each item worked, in the order of the test.</param>
/// <param name="Whole">The whole test, with decisions at the exam's mark.</param>
/// <param name="Sections">Sections that the test has items of.</param>
/// <param name="Topics">Topics that the test has items of.</param>
/// <param name="Coverage">Items by topic against the blueprint, in the order of the exam.</param>
/// <param name="Further">The shortest set of further items that would settle the bands that matter.</param>
/// <param name="Dimensions">Whether topics are distinct.</param>
/// <param name="RapidGuessing">Answers given too fast to be meant.</param>
/// <param name="Sureness">What 'how sure' marks say.</param>
/// <param name="Times">Response times; null where there are too few.</param>
/// <param name="TimesRefusal">Why <paramref name="Times"/> is null; empty otherwise.</param>
public sealed record TestReview(
    ItemScores Scores,
    ImmutableArray<string> Findings,
    ImmutableArray<ItemReport> Items,
    PartReliability Whole,
    ImmutableArray<PartReliability> Sections,
    ImmutableArray<PartReliability> Topics,
    ImmutableArray<TopicCoverage> Coverage,
    ImmutableArray<TopicFurtherItems> Further,
    DimensionReport Dimensions,
    RapidGuessingReport RapidGuessing,
    SurenessReport Sureness,
    ResponseTimeFit? Times,
    string TimesRefusal)
{
    /// <summary>Every person who gave times in every section with a time limit.</summary>
    public ImmutableArray<PersonPace> Pace { get; init; } = [];
}
