using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;
using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Tests.Measurement;

public class LearningBasisTests
{
    private static readonly Exam Exam = SampleExams.OneSection(new PercentCut(60), SampleExams.Topic("A", 10), SampleExams.Topic("B", 10));

    private static readonly LocalDate Now = SampleExams.Today;

    [Fact]
    public void A_room_that_learns_fast_raises_the_usual_rate_and_it_is_said()
    {
        LearningBasis basis = LearningBasis.Of(Exam, Room(12, before: 12, after: 32), Studied(12));

        Assert.Equal((12, 12), (basis.People, basis.Prior!.Persons));
        Assert.True(basis.Learning.RatePerHour > 1.3 * LearningAssumptions.Default.RatePerHour);
        Assert.Equal(basis.Prior.LogSd.Value, basis.Learning.RateLogSd);
        Assert.Equal(LearningAssumptions.Default.Spacing, basis.Learning.Spacing);
        Assert.Contains("learned from the 12 people", basis.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void It_is_the_estimate_of_the_rates_of_each_person()
    {
        ImmutableArray<Attempt> room = Room(10, before: 20, after: 26);
        ImmutableArray<StudySession> study = Studied(10);
        double[] rates = RatePriorEstimator.Rates(LearningAssumptions.Default);

        RatePrior expected = RatePriorEstimator.Estimate(LearningAssumptions.Default, [.. Enumerable.Range(0, 10).Select(i => StandingCalculator.RateLogLikelihoods(
            Exam,
            [.. room.Where(a => a.Candidate == $"Person {i}")],
            Now,
            StandingAssumptions.Default,
            null,
            new StudyHistory(Exam, [.. study.Where(s => s.Candidate == $"PERSON {i}")]),
            rates))]);

        Assert.Equal(expected, LearningBasis.Of(Exam, room, study).Prior);
    }

    [Fact]
    public void Nine_people_are_too_few_and_it_is_said()
    {
        LearningBasis basis = LearningBasis.Of(Exam, Room(9, 12, 32), Studied(9));

        Assert.Null(basis.Prior);
        Assert.Equal(LearningAssumptions.Default, basis.Learning);
        Assert.Contains("10 people with study and a test after it, and there are 9", basis.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Study_without_a_test_after_it_and_tests_without_study_do_not_count()
    {
        ImmutableArray<Attempt> onlyBefore = [.. Room(12, 12, 32).Where(a => a.Kind == AttemptKind.Diagnostic)];

        Assert.Equal(0, LearningBasis.Of(Exam, onlyBefore, Studied(12)).People);
        Assert.Equal(0, LearningBasis.Of(Exam, Room(12, 12, 32), []).People);
        Assert.Equal(1, LearningBasis.Of(Exam, Room(12, 12, 32), Studied(1)).People);
    }

    private static ImmutableArray<Attempt> Room(int people, int before, int after) => [.. Enumerable.Range(0, people).SelectMany(i => new[]
    {
        new Attempt($"Person {i}", "first", AttemptKind.Diagnostic, Now.PlusDays(-20), [TopicCount.Exact("A", before, 40), TopicCount.Exact("B", before, 40)]),
        new Attempt($"Person {i}", "quiz", AttemptKind.Quiz, Now, [TopicCount.Exact("A", after, 40)]),
    })];

    private static ImmutableArray<StudySession> Studied(int people)
        => [.. Enumerable.Range(0, people).SelectMany(i => Enumerable.Range(0, 4).Select(d => new StudySession($"PERSON {i}", "A", Now.PlusDays(-2 * d), 120, StudyKind.Teaching)))];
}
