using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Laboratory;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Tests.Evidence;

public class TestTakingTests
{
    private static readonly Exam Exam = SampleExams.Of(
        OverallRule.EverySection,
        null,
        new Section("First", 30, 10, 40, 4, new PercentCut(60), [SampleExams.Topic("A", 20), SampleExams.Topic("B", 10)]),
        new Section("Second", 20, 0, 25, 4, new PercentCut(60), [SampleExams.Topic("C", 20)]));

    [Fact]
    public void Rapid_answers_are_left_out_whether_right_or_wrong()
    {
        // 20 answers: the mean of 17 of 60 seconds and 3 of 4 is 51.6, so the edge is 5.16 seconds.
        Attempt attempt = Diagnostic([.. Enumerable.Range(0, 20).Select(i => Answer(i, "A", i % 2 == 0, i is 3 or 8 or 15 ? 4 : 60))]);
        TestTaking taking = TestTaking.Of(Exam, [attempt]);
        Assert.Equal((3, 0), (taking.Rapid, taking.NotReached));
        Assert.Equal(5.16, taking.RapidBelow!.Value, 1e-9);
        Assert.Equal(["3", "8", "15"], Items(attempt).Except(Items(taking.Counted[0])));
        Assert.Equal(["3 answers in under 5.2 seconds were left out: too fast for the item to have been read."], taking.Notes);

        // Pace is that of the answers that were worked on.
        Assert.Equal(17, taking.Pace!.Items);
        Assert.Equal(Math.Log(60), taking.Pace.LogMean, 1e-9);
    }

    [Fact]
    public void Leaving_out_is_the_same_as_never_having_been_asked()
    {
        Attempt with = Diagnostic([.. Enumerable.Range(0, 20).Select(i => Answer(i, "A", i % 3 != 0, 50)), Answer(20, "A", false, 2), Answer(21, "B", true, 3)]);
        Attempt without = with with { Observations = with.Observations[..20] };
        CandidateStanding one = StandingCalculator.Calculate(Exam, [with], SampleExams.Today);
        CandidateStanding other = StandingCalculator.Calculate(Exam, [without], SampleExams.Today);
        Assert.Equal(other.Topics.Select(t => t.Level), one.Topics.Select(t => t.Level));
        Assert.Equal(20, one.EvidenceItems);
        Assert.Equal(0, one.Topics[1].EvidenceItems);
    }

    [Fact]
    public void Too_few_times_tell_nothing()
    {
        TestTaking taking = TestTaking.Of(Exam, [Diagnostic([Answer(0, "A", true, 1), Answer(1, "A", true, 90), Answer(2, "A", false, 90), Answer(3, "A", true, 90)])]);
        Assert.Equal(0, taking.Rapid);
        Assert.Null(taking.RapidBelow);
        Assert.Null(taking.Pace);
        Assert.Empty(taking.Notes);
    }

    [Fact]
    public void Blanks_at_the_end_are_not_reached_and_blanks_before_count_as_wrong()
    {
        Attempt attempt = Diagnostic([.. Enumerable.Range(0, 20).Select(i => i is 4 or >= 16 ? Blank(i, "A") : Answer(i, "A", true, null))]);
        TestTaking taking = TestTaking.Of(Exam, [attempt]);
        Assert.Equal((0, 4), (taking.Rapid, taking.NotReached));
        CandidateStanding standing = StandingCalculator.Calculate(Exam, [attempt], SampleExams.Today);
        Assert.Equal(new ObservedShare(15, 16), standing.Topics[0].Observed);
        Assert.Equal(["4 items left blank at the end were not counted as wrong: they tell of time running short, not of what is known."], taking.Notes);
    }

    [Fact]
    public void Each_section_has_its_own_end_where_its_items_stand_together()
    {
        ImmutableArray<Observation> rows =
        [
            .. Enumerable.Range(0, 10).Select(i => i >= 8 ? Blank(i, "A") : Answer(i, "A", true, null)),
            .. Enumerable.Range(10, 10).Select(i => i >= 19 ? Blank(i, "C") : Answer(i, "C", true, null)),
        ];
        Assert.Equal(3, TestTaking.Of(Exam, [Diagnostic(rows)]).NotReached);

        // Mixed sections have one end: the blank before the last answer was passed over.
        Assert.Equal(2, TestTaking.Of(Exam, [Diagnostic([.. rows.OrderBy(r => ((ItemResponse)r).Item[^1])])]).NotReached);
    }

    [Fact]
    public void Blanks_in_a_quiz_are_passed_over()
    {
        Attempt quiz = Diagnostic([.. Enumerable.Range(0, 6).Select(i => i >= 4 ? Blank(i, "A") : Answer(i, "A", true, null))]) with { Kind = AttemptKind.Quiz };
        TestTaking taking = TestTaking.Of(Exam, [quiz]);
        Assert.Equal(0, taking.NotReached);
        Assert.Same(quiz, taking.Counted[0]);
    }

    [Fact]
    public void Without_times_a_test_cut_short_tells_the_pace()
    {
        // 24 of 40 items reached: each took 1.63 times what was allowed. The exam's first section has 40 items as well.
        Attempt attempt = Diagnostic([.. Enumerable.Range(0, 40).Select(i => i >= 24 ? Blank(i, "A") : Answer(i, "A", i % 4 != 0, null))]);
        CandidateStanding standing = StandingCalculator.Calculate(Exam, [attempt], SampleExams.Today);
        Assert.True(standing.Taking.Pace!.Relative);
        PaceOutlook outlook = ForecastCalculator.Calculate(standing).Pace!;
        Assert.Equal(24, outlook.Sections[0].Reach.ExpectedReached.Value!.Value, 0.5);
        Assert.Equal(12, outlook.Sections[1].Reach.ExpectedReached.Value!.Value, 0.5);
        Assert.StartsWith("If that test gave as much time per item as the exam, you would reach about item 24 of 40 in First and about item 12 of 20 in Second;", outlook.Sentence, StringComparison.Ordinal);

        // A later test that was finished tells nothing of the sort; recorded times say more than either.
        Attempt finished = Diagnostic([.. Enumerable.Range(0, 12).Select(i => Answer(i, "B", true, null))]) with { Name = "later", Date = SampleExams.Today.PlusDays(1) };
        Assert.Null(TestTaking.Of(Exam, [attempt, finished]).Pace);
        Attempt timed = Diagnostic([.. attempt.Observations.Cast<ItemResponse>().Select(r => r.Omitted ? r : r with { Seconds = 40 })]);
        Assert.False(TestTaking.Of(Exam, [timed]).Pace!.Relative);
    }

    [Fact]
    public void A_forecast_says_what_the_time_limit_costs()
    {
        double slow = 80;
        Attempt attempt = Diagnostic([.. Enumerable.Range(0, 30).Select(i => Answer(i, i % 3 == 0 ? "C" : "A", i % 4 != 0, slow + (i % 7) - 3))]);
        CandidateStanding standing = StandingCalculator.Calculate(Exam, [attempt], SampleExams.Today);
        Forecast forecast = ForecastCalculator.Calculate(standing);
        Forecast untimed = ForecastCalculator.Calculate(standing with { Taking = TestTaking.None });
        Assert.Null(untimed.Pace);
        Assert.Equal(untimed.PassChance, forecast.Pace!.PassChanceInTime, 1e-12);
        Assert.Equal(untimed.PassChance - forecast.PassChance, forecast.Pace.Cost, 1e-12);
        Assert.True(forecast.Pace.MayRunShort);
        Assert.Equal(
            $"At your pace (about 80 seconds an item) you would reach about item 30 of 40 in First and about item 18 of 20 in Second; answering the rest by chance costs about {Math.Round(forecast.Pace.Cost * 100):0} points of pass chance.",
            forecast.Pace.Sentence);
    }

    [Fact]
    public void Whoever_is_fast_enough_is_told_so()
    {
        Attempt attempt = Diagnostic([.. Enumerable.Range(0, 30).Select(i => Answer(i, "A", i % 4 != 0, 30 + (i % 5)))]);
        PaceOutlook outlook = ForecastCalculator.Calculate(StandingCalculator.Calculate(Exam, [attempt], SampleExams.Today)).Pace!;
        Assert.Equal("At your pace (about 32 seconds an item) you will most likely reach the last item of every section with a time limit.", outlook.Sentence);
        Assert.Equal(0, outlook.Cost);
    }

    [Fact]
    public void Leaving_out_guesses_and_unreached_items_takes_away_most_of_their_bias()
    {
        // One person, logit 1 on everything, sits 60 items again and again: 48 in earnest; 12 are guessed in two seconds, or not reached.
        const int People = 60;
        const int Worked = 48;
        const int Spoilt = 12;
        double truth = 0.25 + (0.75 / (1 + Math.Exp(-1)));
        double earnest = 0;
        double guessedSeen = 0;
        double guessedUnseen = 0;
        double unreached = 0;
        double passedOver = 0;
        for (int person = 0; person < People; person++)
        {
            RandomSequence luck = new(7, Draws.Answers, person);
            double chance = truth;
            List<ItemResponse> worked = [];
            for (int i = 0; i < Worked; i++)
            {
                worked.Add(Answer(i, "ABC"[i % 3].ToString(), luck.Uniform() < chance, 40 + (20 * luck.Uniform())));
            }

            List<ItemResponse> guesses = [];
            for (int i = Worked; i < Worked + Spoilt; i++)
            {
                guesses.Add(Answer(i, "ABC"[i % 3].ToString(), luck.Uniform() < 0.25, 2));
            }

            earnest += MeanChance([.. worked]);
            guessedSeen += MeanChance([.. worked, .. guesses]);
            guessedUnseen += MeanChance([.. worked.Concat(guesses).Select(r => r with { Seconds = null })]);
            unreached += MeanChance([.. worked, .. guesses.Select(r => r with { Omitted = true, Correct = false, Seconds = null })]);
            passedOver += MeanChance([.. worked, .. guesses.Select(r => r with { Correct = false, Seconds = null })]);
        }

        // Guesses cost about a fifth of the distance to a quarter right, wrong answers a fifth of the whole; left out, nothing is lost.
        Assert.Equal(earnest / People, guessedSeen / People, 1e-9);
        Assert.Equal(earnest / People, unreached / People, 1e-9);
        Assert.InRange(earnest / People, truth - 0.03, truth + 0.01);
        Assert.InRange((earnest - guessedUnseen) / People, 0.06, 0.13);
        Assert.InRange((earnest - passedOver) / People, 0.1, 0.18);

        double MeanChance(ImmutableArray<Observation> rows) => StandingCalculator.Calculate(Exam, [Diagnostic(rows)], SampleExams.Today).Topics.Average(t => t.Level.Mean);
    }

    private static Attempt Diagnostic(ImmutableArray<Observation> rows) => new("Someone", "diagnostic", AttemptKind.Diagnostic, SampleExams.Today, rows);

    private static ItemResponse Answer(int item, string topic, bool right, double? seconds) => new(topic, null, $"{item}", right, seconds, null);

    private static ItemResponse Blank(int item, string topic) => new(topic, null, $"{item}", false, null, null) { Omitted = true };

    private static IEnumerable<string> Items(Attempt attempt) => attempt.Observations.Cast<ItemResponse>().Select(r => r.Item);
}
