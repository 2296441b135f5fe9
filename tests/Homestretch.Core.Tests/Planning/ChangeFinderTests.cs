using System.Collections.Immutable;

using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Changes;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Tests.Planning;

public sealed class ChangeFinderTests
{
    private static readonly ImmutableArray<Attempt> _attempts = SampleExams.HalfLength(SampleExams.Large(), 0.4, 0.6, 0.95, 0.6, 0.9);
    private static readonly CandidateStanding _standing = StandingCalculator.Calculate(SampleExams.Large(), _attempts, SampleExams.Today);
    private static readonly FreeTime _free = FreeTimeScaling.ToWeeklyMinutes(PlannerTests.Evenings(), 5 * 60);
    private static readonly StudyPlan _plan = PlanOf(_standing, _free);
    private static readonly Lazy<PlanChanges> _changes = new(() => ChangeFinder.Find(_standing, _attempts, _plan, _free, []));

    [Fact]
    public void Every_block_and_every_topic_has_a_sentence()
    {
        Assert.Equal(_plan.Blocks.Length, _changes.Value.Blocks.Length);
        Assert.Equal(_standing.Exam.Topics.Select(t => t.Name).Order(), _changes.Value.Topics.Keys.Order());
        Assert.All(_changes.Value.Blocks.Select(b => b.Sentence).Concat(_changes.Value.Topics.Values.Select(t => t.Sentence)), s => Assert.EndsWith(".", s, StringComparison.Ordinal));
    }

    [Fact]
    public void A_block_is_worth_what_the_model_says_is_lost_without_it()
    {
        ScoreModel model = new(_standing, null, QuadratureDetail.Coarse);
        foreach ((int number, StudyBlock block) in _plan.Blocks.Index())
        {
            double[] Efforts(Func<StudyBlock, bool> kept) =>
            [
                .. _standing.Exam.Topics.Select((topic, t) => model.BreadthFactors[t] * model.Learning.Retained(
                    [.. _plan.Blocks.Where(b => b.Topic == topic && kept(b)).Select(b => new StudyMoment(StudyHistory.DayNumber(b.Start.Date), b.Minutes / 60.0, b.Purpose.Kind()))],
                    StudyHistory.DayNumber(_plan.ExamDay))),
            ];
            Assert.Equal(model.PassChance(Efforts(_ => true)) - model.PassChance(Efforts(b => b != block)), _changes.Value.Blocks[number].Loss, 1e-12);
        }
    }

    [Fact]
    public void No_other_use_of_a_blocks_time_is_better_by_more_than_a_fifth_of_a_point()
        => Assert.All(_changes.Value.Blocks, b => Assert.InRange(b.InsteadLoss, -0.002, b.Loss));

    [Fact]
    public void The_hours_at_which_a_topic_comes_in_are_those_at_which_the_plan_has_it()
    {
        int now = FreeTimeScaling.WeeklyMinutes(_free);
        (string Name, int Minutes)[] coming = [.. _plan.LeftAlone.Select(l => (l.Topic.Name, _changes.Value.Topics[l.Topic.Name].WeeklyMinutes)).Where(t => t.WeeklyMinutes is not null).Select(t => (t.Name, t.WeeklyMinutes!.Value))];
        Assert.NotEmpty(coming);
        foreach ((string name, int minutes) in coming)
        {
            Assert.Contains(PlanOf(_standing, FreeTimeScaling.ToWeeklyMinutes(_free, now + minutes)).Minutes, m => m.Topic.Name == name);
            Assert.Contains($"from about {minutes / 60} hour", _changes.Value.Topics[name].Sentence, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void The_quiz_that_would_bring_a_topic_in_does_so_when_it_comes()
    {
        (string Name, QuizThreshold Quiz)[] coming = [.. _plan.LeftAlone.Select(l => (l.Topic.Name, _changes.Value.Topics[l.Topic.Name].Quiz)).Where(t => t.Quiz is not null).Select(t => (t.Name, t.Quiz!.Value))];
        Assert.NotEmpty(coming);
        foreach ((string name, QuizThreshold quiz) in coming)
        {
            CandidateStanding after = StandingCalculator.Calculate(_standing.Exam, [.. _attempts, Quiz(name, quiz.Correct)], SampleExams.Today);
            Assert.Contains(PlanOf(after, _free).Minutes, m => m.Topic.Name == name);
        }
    }

    [Fact]
    public void Every_quiz_that_would_take_time_from_a_topic_does_so_when_it_comes()
    {
        (string Name, QuizThreshold Quiz)[] going = [.. _plan.Minutes.Select(l => (l.Topic.Name, _changes.Value.Topics[l.Topic.Name].Quiz)).Where(t => t.Quiz is not null).Select(t => (t.Name, t.Quiz!.Value))];
        Assert.NotEmpty(going);
        foreach ((string name, QuizThreshold quiz) in going)
        {
            CandidateStanding after = StandingCalculator.Calculate(_standing.Exam, [.. _attempts, Quiz(name, quiz.Correct)], SampleExams.Today);
            Assert.True(Minutes(PlanOf(after, _free), name) < Minutes(_plan, name), name);
        }
    }

    [Theory]
    [InlineData(10, true, "10 of 10")]
    [InlineData(9, true, "9 or more of 10")]
    [InlineData(3, false, "3 or fewer of 10")]
    [InlineData(0, false, "0 of 10")]
    public void A_result_is_said_in_words(int correct, bool orMore, string words) => Assert.Equal(words, new QuizThreshold(correct, orMore).ToString());

    [Fact]
    public void Without_free_time_only_free_time_would_change_anything()
    {
        FreeTime none = new(PlannerTests.Zone, [], [], []);
        PlanChanges changes = ChangeFinder.Find(_standing, _attempts, PlanOf(_standing, none), none, [], cancellation: TestContext.Current.CancellationToken);
        Assert.Empty(changes.Blocks);
        Assert.All(changes.Topics.Values, t => Assert.Equal("Free time before the exam would bring it in.", t.Sentence));
    }

    private static StudyPlan PlanOf(CandidateStanding standing, FreeTime free)
        => Planner.Plan(standing, free, [], PlannerTests.From, PlannerTests.ExamDay, cancellation: TestContext.Current.CancellationToken);

    private static int Minutes(StudyPlan plan, string topic) => plan.Minutes.Where(m => m.Topic.Name == topic).Sum(m => m.Minutes);

    private static Attempt Quiz(string topic, int correct)
        => new("Someone", "quiz", AttemptKind.Quiz, SampleExams.Today, [TopicCount.Exact(topic, correct, QuizThreshold.Items)]);
}
