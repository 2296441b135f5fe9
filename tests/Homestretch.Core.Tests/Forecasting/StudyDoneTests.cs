using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Tests.Forecasting;

public class StudyDoneTests
{
    private static readonly Exam Exam = SampleExams.OneSection(new PercentCut(60), SampleExams.Topic("A", 10), SampleExams.Topic("B", 20), SampleExams.Topic("C", 15));

    private static readonly LocalDate Now = SampleExams.Today;

    private static readonly StudyHistory Study = new(
        Exam,
        [
            new StudySession("Someone", "C", Now.PlusDays(-1), 40, StudyKind.Review),
            new StudySession("Someone", "A", Now.PlusDays(-3), 50, StudyKind.Teaching),
            new StudySession("Someone", "A", Now.PlusDays(-2), 45, StudyKind.PracticeItems),
        ]);

    [Fact]
    public void Study_is_told_by_topic_with_what_it_adds()
    {
        CandidateStanding standing = Standing(Diagnostic, Study);

        StudyDone done = StudyDone.Of(standing, null);

        Assert.Equal((3, 135), (done.Sessions, done.Minutes));
        Assert.Equal([("A", 95, Now.PlusDays(-2)), ("C", 40, Now.PlusDays(-1))], done.Topics.Select(t => (t.Topic.Name, t.Minutes, t.Last)));
        Assert.All(done.Topics, t => Assert.True(t.ScoreGain > 0.05));
        Assert.Equal(done.Now.ExpectedCorrect - done.Without.ExpectedCorrect, done.Topics.Sum(t => t.ScoreGain), 1e-9);
        Assert.Equal(ForecastCalculator.Calculate(standing).PassChance, done.Now.PassChance, 1e-12);
        Assert.Null(done.AtAssumedRate);
    }

    [Fact]
    public void Where_no_test_has_seen_the_study_the_outcome_without_it_is_that_of_a_standing_without_it()
    {
        StudyDone done = StudyDone.Of(Standing(Diagnostic, Study), null);

        Assert.Equal(ForecastCalculator.Calculate(Standing(Diagnostic, StudyHistory.None)).PassChance, done.Without.PassChance, 1e-4);
    }

    [Fact]
    public void A_good_quiz_after_study_lifts_the_pass_chance_above_that_at_the_assumed_rate()
    {
        ImmutableArray<Attempt> tests = [.. Diagnostic, new Attempt("Someone", "quiz", AttemptKind.Quiz, Now, [TopicCount.Exact("A", 20, 20)])];
        StudyHistory long_ = new(Exam, [.. Enumerable.Range(1, 8).Select(d => new StudySession("Someone", "A", Now.PlusDays(-d), 120, StudyKind.Teaching))]);
        CandidateStanding standing = Standing(tests, long_);

        StudyDone done = StudyDone.Of(standing, Standing(tests, long_.With(Exam, long_.Learning with { RateLogSd = 0 })));

        Assert.True(standing.Rate!.Median > standing.Rate.AssumedMedian);
        Assert.NotNull(done.AtAssumedRate);
        Assert.True(done.Now.TopicExpected[0] > done.AtAssumedRate.TopicExpected[0]);
    }

    [Fact]
    public void Without_study_nothing_changes()
    {
        StudyDone done = StudyDone.Of(Standing(Diagnostic, StudyHistory.None), null);

        Assert.Equal((0, 0), (done.Sessions, done.Minutes));
        Assert.Equal(done.Now.PassChance, done.Without.PassChance);
    }

    [Fact]
    public void Tests_count_that_come_after_study_of_one_of_their_topics()
    {
        Attempt Quiz(string topic, int daysAgo) => new("Someone", $"{topic} {daysAgo}", AttemptKind.Quiz, Now.PlusDays(-daysAgo), [TopicCount.Exact(topic, 5, 8)]);

        Assert.Equal(0, Standing([.. Diagnostic, Quiz("A", 4), Quiz("B", 0)], Study).Rate!.Tests);
        Assert.Equal(3, Standing([.. Diagnostic, Quiz("A", 4), Quiz("B", 0), Quiz("A", 3), Quiz("A", 0), Quiz("C", 1)], Study).Rate!.Tests);
    }

    [Theory]
    [InlineData(4, 0.75)]
    [InlineData(0, 1)]
    public void A_first_hour_is_what_the_model_says_of_somebody_in_the_middle(int options, double span)
    {
        Exam exam = SampleExams.OneSection(new PercentCut(60), options, [SampleExams.Topic("A", 10)]);

        // docs/model.md: S (1 - exp(-1 / S)) first hours, S = 10.
        double lift = 0.2 * 10 * (1 - Math.Exp(-0.1));

        Assert.Equal(span * ((1 / (1 + Math.Exp(-lift))) - 0.5), RateStanding.FirstHour(exam, LearningAssumptions.Default, 0.2), 1e-12);
    }

    private static ImmutableArray<Attempt> Diagnostic =>
        [new Attempt("Someone", "first", AttemptKind.Diagnostic, Now.PlusDays(-8), [TopicCount.Exact("A", 5, 10), TopicCount.Exact("B", 9, 14), TopicCount.Exact("C", 7, 12)])];

    private static CandidateStanding Standing(ImmutableArray<Attempt> tests, StudyHistory study) => StandingCalculator.Calculate(Exam, tests, Now, study: study);
}
