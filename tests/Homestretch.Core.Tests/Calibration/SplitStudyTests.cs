using System.Collections.Immutable;

using Homestretch.Calibration;
using Homestretch.Core.Blueprints;
using Homestretch.Core.Calibration;
using Homestretch.Core.Measurement;

namespace Homestretch.Core.Tests.Calibration;

public class SplitStudyTests
{
    // Real answers; with 200 splits and how they were made: docs/measurement.md. Where the exam half is new to everybody, its level on these few items is anybody's guess.
    [Theory]
    [InlineData("ability", 40, false, 0.045)]
    [InlineData("mathematics exam", 60, false, 0.075)]
    [InlineData("logical operations", 60, false, 0.045)]
    [InlineData("ability", 40, true, 0.03)]
    [InlineData("mathematics exam", 60, true, 0.03)]
    [InlineData("logical operations", 60, true, 0.03)]
    public void Forecasts_of_real_exams_hold(string name, int splits, bool examSat, double error)
    {
        SplitStudyResult result = Run(RealData.Named(name), new SplitStudyOptions(splits, 1) { ExamSatBefore = examSat, TotalPercents = [50, 60, 70] });
        Assert.InRange(result.Coverage, 0.88, examSat ? 0.92 : 0.94);
        Assert.Equal(1, result.Pit.Sum(), 1e-9);
        foreach (SplitStudyCut cut in result.Cuts)
        {
            Assert.InRange(cut.Forecast.CalibrationError, 0, error);
            Assert.True(cut.Forecast.CalibrationError < cut.PlainShare.CalibrationError);
            Assert.True(cut.Forecast.BrierScore < cut.Forecast.BaseRateBrierScore);
            Assert.True(cut.Forecast.BrierScore < cut.PlainShare.BrierScore + (examSat ? 0 : 0.001));
            Assert.True(cut.Forecast.LogScore > cut.Forecast.BaseRateLogScore);
        }
    }

    [Fact]
    public void The_same_seed_gives_the_same_study_and_another_seed_another()
    {
        RealData data = RealData.Named("logical operations");
        SplitStudyResult first = Run(data, new SplitStudyOptions(3, 9));
        SplitStudyResult second = Run(data, new SplitStudyOptions(3, 9));
        SplitStudyResult third = Run(data, new SplitStudyOptions(3, 10));
        Assert.Equal(first.Pit, second.Pit);
        Assert.Equal(first.Cuts[0].Forecast.Bins, second.Cuts[0].Forecast.Bins);
        Assert.NotEqual(first.Pit, third.Pit);
    }

    [Fact]
    public void Everybody_is_forecast_once_in_each_split_from_defaults_and_half_of_them_where_priors_are_learned()
    {
        RealData data = RealData.Named("logical operations");
        SplitStudyResult few = Run(new RealData(data.Exam, FirstPeople(data.Answers, 40)), new SplitStudyOptions(3, 1));
        Assert.False(few.PriorsLearned);
        Assert.Equal((40, 120), (few.People, few.Forecasts));
        SplitStudyResult more = Run(new RealData(data.Exam, FirstPeople(data.Answers, 61)), new SplitStudyOptions(3, 1));
        Assert.True(more.PriorsLearned);
        Assert.Equal((61, 93), (more.People, more.Forecasts));
    }

    [Fact]
    public void The_exams_own_rule_is_the_same_as_its_mark_on_the_total()
    {
        RealData data = RealData.Named("logical operations");
        SplitStudyCut own = Run(data, new SplitStudyOptions(2, 1)).Cuts.Single();
        SplitStudyCut percent = Run(data, new SplitStudyOptions(2, 1) { TotalPercents = [60] }).Cuts.Single();
        Assert.Null(own.TotalPercent);
        Assert.Equal(percent.Forecast.BrierScore, own.Forecast.BrierScore, 1e-9);
        Assert.Equal(percent.PlainShare.BrierScore, own.PlainShare.BrierScore, 1e-9);
    }

    [Fact]
    public void Where_every_section_decides_fewer_pass_than_either()
    {
        RealData data = RealData.Named("logical operations");
        double Rate(OverallRule rule, double first, double second)
        {
            ImmutableArray<TestItem> items = [.. data.Answers.Items.Select((item, i) => item with { Topic = i % 2 == 0 ? "even" : "odd" })];
            Section Part(string name, double percent)
                => new(name, items.Count(i => i.Topic == name), 0, null, 0, new PercentCut(percent), [new Topic(name, Weight.Items(1), items.Count(i => i.Topic == name), [])]);
            Exam exam = new("Two sections", null, null, [Part("even", first), Part("odd", second)], rule, null, null, BandEdges.Default);
            CalibrationTable table = Run(new RealData(exam, new ItemScores(items, data.Answers.Persons)), new SplitStudyOptions(4, 3)).Cuts.Single().Forecast;
            Assert.Equal(table.BaseRate, table.MeanForecast, 0.15);
            return table.BaseRate;
        }

        double both = Rate(OverallRule.EverySection, 70, 70);
        Assert.True(both < Rate(OverallRule.EverySection, 70, 1));
        Assert.True(both < Rate(OverallRule.EverySection, 1, 70));
    }

    [Fact]
    public void People_without_every_item_are_left_out_and_too_few_people_or_items_are_refused_in_a_sentence()
    {
        RealData data = RealData.Named("ability");
        int complete = data.Answers.Persons.Count(p => p.Complete);
        Assert.Equal(1248, complete);
        Assert.Equal(complete, Run(data, new SplitStudyOptions(1, 1)).People);
        UnsuitableDataException few = Assert.Throws<UnsuitableDataException>(() => Run(new RealData(data.Exam, FirstPeople(data.Answers, 5)), new SplitStudyOptions(1, 1)));
        Assert.Contains("at least 10", few.Message, StringComparison.Ordinal);
        Exam three = new("Three items", null, null, [new Section("All", 3, 0, null, 0, null, [new Topic("Topic", Weight.Items(3), 3, [])])], OverallRule.Total, new PercentCut(60), null, BandEdges.Default);
        ItemScores short3 = new([.. Enumerable.Range(1, 3).Select(i => new TestItem($"{i}", "Topic"))], [.. Enumerable.Range(0, 20).Select(p => new PersonAnswers($"{p}", [.. Enumerable.Repeat(new ItemAnswer(p % 2 == 0 ? ItemScore.Right : ItemScore.Wrong), 3)]))]);
        UnsuitableDataException items = Assert.Throws<UnsuitableDataException>(() => Run(new RealData(three, short3), new SplitStudyOptions(1, 1)));
        Assert.Contains("3 items", items.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_cohort_that_is_all_right_is_refused_not_answered_with_nonsense()
    {
        RealData data = RealData.Named("logical operations");
        ItemScores right = new(data.Answers.Items, [.. data.Answers.Persons.Select(p => p with { Answers = [.. p.Answers.Select(_ => new ItemAnswer(ItemScore.Right))] })]);
        Assert.Throws<UnsuitableDataException>(() => Run(new RealData(data.Exam, right), new SplitStudyOptions(2, 1)));
    }

    [Fact]
    public void A_study_can_be_stopped_and_tells_how_far_it_is()
    {
        RealData data = RealData.Named("logical operations");
        using CancellationTokenSource stopped = new();
        stopped.Cancel();
        Assert.Throws<OperationCanceledException>(() => SplitStudy.Run(data.Exam, data.Answers, new SplitStudyOptions(2, 1), cancellation: stopped.Token));
        Told told = new();
        SplitStudy.Run(data.Exam, data.Answers, new SplitStudyOptions(4, 1), told, TestContext.Current.CancellationToken);
        Assert.Equal([1, 2, 3, 4], told.Values.Order());
    }

    private static SplitStudyResult Run(RealData data, SplitStudyOptions options)
        => SplitStudy.Run(data.Exam, data.Answers, options, cancellation: TestContext.Current.CancellationToken);

    private static ItemScores FirstPeople(ItemScores answers, int people) => new(answers.Items, answers.Persons[..people]);

    private sealed class Told : IProgress<int>
    {
        private readonly Lock _lock = new();

        public List<int> Values { get; } = [];

        public void Report(int value)
        {
            lock (_lock)
            {
                Values.Add(value);
            }
        }
    }
}
