using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Measurement;

namespace Homestretch.Files.Documents;

/// <summary>Whether a diagnostic deserves trust.</summary>
/// <param name="Exam">Name of the exam.</param>
/// <param name="Attempt">The test's name as the evidence gives it.</param>
/// <param name="Candidates">People who took it.</param>
/// <param name="Findings">What a coach should know, in sentences.</param>
/// <param name="Items">In the order of the test.</param>
/// <param name="Whole">The whole test.</param>
/// <param name="Sections">Sections that the test has items of.</param>
/// <param name="Topics">Topics that the test has items of.</param>
/// <param name="Coverage">In the order of the exam.</param>
/// <param name="Dimensions">Whether topics are distinct.</param>
/// <param name="RapidGuessing">The finding on rapid guesses, a sentence.</param>
/// <param name="Sureness">The finding on 'how sure' marks, a sentence.</param>
/// <param name="SurenessLevels">Share correct by sureness.</param>
/// <param name="People">In the order of the evidence.</param>
/// <param name="PaceMarks">Where to be on the clock on exam day.</param>
public sealed record DiagnosticDocument(
    string Exam,
    string Attempt,
    int Candidates,
    ImmutableArray<string> Findings,
    ImmutableArray<ItemFields> Items,
    ReliabilityFields Whole,
    ImmutableArray<ReliabilityFields> Sections,
    ImmutableArray<ReliabilityFields> Topics,
    ImmutableArray<CoverageFields> Coverage,
    DimensionFields Dimensions,
    string RapidGuessing,
    string Sureness,
    ImmutableArray<SurenessLevelFields> SurenessLevels,
    ImmutableArray<CandidateMarksFields> People,
    ImmutableArray<PaceMarkFields> PaceMarks)
{
    /// <summary>The document of a review.</summary>
    public static DiagnosticDocument Of(Exam exam, string attempt, TestReview review)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(review);
        Dictionary<string, PersonSureness> sure = review.Sureness.Persons.ToDictionary(p => p.Person, StringComparer.Ordinal);
        ILookup<string, PersonPace> paces = review.Pace.ToLookup(p => p.Person, StringComparer.Ordinal);
        return new(
            exam.Name,
            attempt,
            review.Scores.Persons.Length,
            review.Findings,
            [.. review.Items.Select(ItemFields.Of)],
            ReliabilityFields.Of(review.Whole),
            [.. review.Sections.Select(ReliabilityFields.Of)],
            [.. review.Topics.Select(ReliabilityFields.Of)],
            [.. review.Coverage.Select(c => CoverageFields.Of(c, review.Further.FirstOrDefault(f => f.Topic.Name == c.Topic.Name)))],
            DimensionFields.Of(review.Dimensions),
            review.RapidGuessing.Summary,
            review.Sureness.Summary,
            [.. review.Sureness.Levels.Select(l => new SurenessLevelFields(l.Low, l.High, l.Answers, l.Right))],
            [.. review.Scores.Persons.Select((p, i) => new CandidateMarksFields(
                p.Person,
                p.Correct,
                review.RapidGuessing.Persons[i].Timed,
                review.RapidGuessing.Persons[i].Rapid,
                StatisticFields.Of(review.RapidGuessing.Persons[i].Effort),
                review.Times?.Persons[i] is { Times: > 0 } speed ? speed.Speed : null,
                sure.GetValueOrDefault(p.Person)?.Lucky,
                sure.GetValueOrDefault(p.Person)?.SureWrong,
                [.. paces[p.Person].Select(f => new PaceFields(
                    f.Section, StatisticFields.Of(f.Forecast.FinishChance), StatisticFields.Of(f.Forecast.ExpectedReached), f.Forecast.Remark))]))],
            PaceMarkFields.Of(exam));
    }
}
