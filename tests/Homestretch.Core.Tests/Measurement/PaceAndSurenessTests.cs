using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Measurement;
using Homestretch.Core.Planning;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Tests.Measurement;

public class PaceAndSurenessTests
{
    [Fact]
    public void The_chance_to_finish_agrees_with_simulation()
    {
        double[] seconds = [40, 65, 52, 88, 30, 71, 59, 47, 95, 62, 55, 38, 80, 49, 60, 57, 73, 44, 66, 51];
        double[] logs = [.. seconds.Select(s => Math.Log(s))];
        double mean = logs.Average();
        double sd = Math.Sqrt(logs.Sum(l => (l - mean) * (l - mean)) / (logs.Length - 1));
        Random random = new(7);
        double Draw() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        const int Runs = 40_000;
        int finished = 0;
        long reached = 0;
        for (int run = 0; run < Runs; run++)
        {
            double pace = mean + (sd / Math.Sqrt(logs.Length) * Draw()) + (0.1 * Draw());
            double clock = 0;
            int items = 0;
            for (; items < 60; items++)
            {
                clock += Math.Exp(pace + (sd * Draw()));
                if (clock > 60 * 60)
                {
                    break;
                }
            }

            reached += items;
            finished += items == 60 ? 1 : 0;
        }

        PaceForecast forecast = Pace.Of(seconds, 60, 60);

        // Fenton's approximation of the sum, and about 0.25 points of simulation error.
        Assert.Equal((double)finished / Runs, forecast.FinishChance.Value!.Value, 0.01);
        Assert.Equal((double)reached / Runs, forecast.ExpectedReached.Value!.Value, 0.15);
    }

    [Fact]
    public void More_time_never_lowers_the_chance_to_finish()
    {
        double[] seconds = [.. Enumerable.Range(1, 20).Select(i => 30.0 + (5 * i))];
        double[] chances = [.. Enumerable.Range(30, 90).Select(m => Pace.Of(seconds, 60, m).FinishChance.Value!.Value)];
        Assert.Equal(chances.Order(), chances);
    }

    [Fact]
    public void Marks_for_the_clock_keep_a_twentieth_back()
    {
        Section section = new("S", 75, 10, 105, 4, new PercentCut(65), [SampleExams.Topic("A", 75)]);

        // 105 minutes less 5.25; after 20 of 85 items 23.47 of 99.75 minutes.
        ImmutableArray<PaceMark> marks = Pace.Marks(section, 20);
        Assert.Equal([20, 40, 60, 80, 85], marks.Select(m => m.Item));
        Assert.Equal(new PaceMark(20, 23, 82), marks[0]);
        Assert.Equal(new PaceMark(85, 99, 6), marks[^1]);
        Assert.Empty(Pace.Marks(SampleExams.Section("S", new PercentCut(60), 4, SampleExams.Topic("A", 5))));
    }

    [Fact]
    public void An_answer_in_less_than_a_tenth_of_the_mean_time_is_rapid_but_never_after_ten_seconds()
    {
        // Item 1: mean 52.1, threshold 5.21. Item 2: mean 186.5, a tenth would be 18.65, so 10.
        double[][] times = [[60, 200], [55, 180], [62, 220], [58, 190], [72.5, 318], [5.1, 11]];
        ItemScores scores = Timed(times);
        RapidGuessingReport report = RapidGuessing.Of(scores);
        Assert.Equal(0.1 * 312.6 / 6, report.Thresholds[0].Value!.Value, 1e-9);
        Assert.Equal(10, report.Thresholds[1].Value);
        Assert.Equal([0, 0, 0, 0, 0, 1], report.Persons.Select(p => p.Rapid));
        Assert.Equal(0.5, report.Persons[5].Effort.Value);
        Assert.True(report.Persons[5].Doubtful);
    }

    [Fact]
    public void Wrong_guesses_say_how_many_right_ones_were_luck()
    {
        // Four options; nine guesses of which six are wrong: 6 x 0.25 / 0.75 = 2 of the three right ones were luck.
        (bool Right, double Sure)[] answers =
        [
            .. Enumerable.Repeat((false, 0.0), 6), .. Enumerable.Repeat((true, 0.1), 3), (false, 1.0), (true, 1.0), (true, 2.0 / 3), (false, 2.0 / 3),
        ];
        ItemScores scores = new(
            [.. answers.Select((_, i) => new TestItem($"{i}", "T", null, 0.25))],
            [new PersonAnswers("P", [.. answers.Select(a => new ItemAnswer(a.Right ? ItemScore.Right : ItemScore.Wrong, null, null, a.Sure))])]);
        PersonSureness person = Assert.Single(Sureness.Of(scores).Persons);
        Assert.Equal((13, 5, 9, 3, 2), (person.Marked, person.Right, person.Guessed, person.GuessedRight, person.SureWrong));
        Assert.Equal(2, person.Lucky, 1e-9);
        Assert.Equal("About 2 of 5 correct answers were lucky guesses; 2 wrong answers were given as sure.", person.Remark);
    }

    [Fact]
    public void Coverage_names_missing_thin_and_over_sampled_topics()
    {
        Exam exam = SampleExams.OneSection(new PercentCut(65), SampleExams.Topic("A", 40), SampleExams.Topic("B", 30), SampleExams.Topic("C", 20), SampleExams.Topic("D", 10));
        IEnumerable<string> topics = [.. Enumerable.Repeat("A", 22), .. Enumerable.Repeat("B", 12), .. Enumerable.Repeat("C", 6)];
        ImmutableArray<TopicCoverage> coverage = Coverage.Of(exam, topics);
        Assert.Equal([16, 12, 8, 4], coverage.Select(c => c.Expected));
        Assert.Equal([CoverageVerdict.OverSampled, CoverageVerdict.Fair, CoverageVerdict.TooFew, CoverageVerdict.Missing], coverage.Select(c => c.Verdict));
    }

    [Fact]
    public void Further_items_of_one_person_are_those_that_settle_the_topics_that_matter()
    {
        Exam exam = SampleExams.OneSection(new PercentCut(65), SampleExams.Topic("A", 40), SampleExams.Topic("B", 40), SampleExams.Topic("C", 20));
        CandidateStanding standing = StandingCalculator.Calculate(exam, SampleExams.Diagnostic(("A", 6, 10), ("B", 40, 40), ("C", 5, 9)), SampleExams.Today);
        ImmutableArray<TopicFurtherItems> further = FurtherItems.For([new CandidateGains(standing, [.. WorthCalculator.NextMinutes(standing).Select(w => w.PassGain)])]);
        Assert.NotEmpty(further);
        Assert.All(further, f =>
        {
            TopicStanding topic = standing.Topics.Single(t => t.Topic.Name == f.Topic.Name);
            Assert.False(topic.Level.Settled);
            Assert.Equal(topic.ItemsToSettle, f.Items);
            Assert.Equal(1, f.Candidates);
        });
        Assert.DoesNotContain(further, f => f.Topic.Name == "B");
    }

    private static ItemScores Timed(double[][] times) => new(
        [.. times[0].Select((_, i) => new TestItem($"{i}", "T"))],
        [.. times.Select((row, p) => new PersonAnswers($"P{p}", [.. row.Select(t => new ItemAnswer(ItemScore.Right, null, t))]))]);
}
