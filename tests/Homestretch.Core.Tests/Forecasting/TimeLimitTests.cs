using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Standing;

using MathNet.Numerics.Distributions;

namespace Homestretch.Core.Tests.Forecasting;

public class TimeLimitTests
{
    private const double DaySpread = 0.1;

    [Theory]
    [InlineData(4, 80, 80)]
    [InlineData(4, 95, 88)]
    [InlineData(0, 85, 100)]
    public void Pass_chance_agrees_with_an_exam_simulated_item_by_item(int options, int firstMinutes, int secondMinutes)
    {
        Exam exam = Timed(options, firstMinutes, secondMinutes);
        CandidateStanding standing = Standing(exam, Pace(70));
        WorkingPace pace = standing.Taking.Pace!;
        Random random = new(11);
        SimulatedPerson person = new(standing, random);
        const int Draws = 60_000;
        int passes = 0;
        double score = 0;
        for (int draw = 0; draw < Draws; draw++)
        {
            double[] chances = person.Chances();
            double today = pace.LogMean + Normal.Sample(random, 0, Math.Sqrt((pace.LogSd * pace.LogSd / pace.Items) + (DaySpread * DaySpread)));
            bool pass = true;
            for (int s = 0; s < exam.Sections.Length; s++)
            {
                int correct = Sit(exam, s, chances, today, pace.LogSd, random);
                score += correct;
                pass &= correct >= exam.Sections[s].Cut!.RequiredCorrect(exam.Sections[s].ScoredItems);
            }

            passes += pass ? 1 : 0;
        }

        // Three standard errors, and what the approximations cost: sums of times as log-normal, one pace for both sections, topics spread evenly.
        Forecast forecast = ForecastCalculator.Calculate(standing);
        double share = (double)passes / Draws;
        Assert.Equal(share, forecast.PassChance, (3 * Math.Sqrt(share * (1 - share) / Draws)) + 0.003);
        Assert.Equal(score / Draws, forecast.ExpectedCorrect, 0.25);
    }

    [Fact]
    public void Few_cases_of_reach_agree_with_many()
    {
        foreach (int minutes in new[] { 50, 70, 80, 85, 90, 100 })
        {
            Exam exam = Timed(4, minutes, minutes + 5);
            CandidateStanding standing = Standing(exam, Pace(70));
            double[] effort = [.. exam.Topics.Select((_, t) => (t * 7 % 5) * 0.4)];
            double Chance(QuadratureDetail detail) => new ScoreModel(standing, null, detail).PassChance(effort);
            double reference = Chance(QuadratureDetail.Full with { ReachParts = 20 });
            Assert.Equal(reference, Chance(QuadratureDetail.Full), 0.003);
            Assert.Equal(reference, Chance(QuadratureDetail.Coarse), 0.03);
        }
    }

    [Fact]
    public void With_time_enough_nothing_changes()
    {
        Exam exam = Timed(4, 240, 240);
        CandidateStanding standing = Standing(exam, Pace(70));
        Assert.False(new ScoreModel(standing).TimeMatters);
        Assert.Equal(new ScoreModel(exam, standing.Posterior).Outcome(new double[4]).Total, new ScoreModel(standing).Outcome(new double[4]).Total);
    }

    [Fact]
    public void Where_nothing_is_reached_everything_is_guessed()
    {
        Exam exam = Timed(4, 1, 1);
        CandidateStanding standing = Standing(exam, [.. Enumerable.Repeat(5000.0, 20)]);
        ScoreOutcome outcome = new ScoreModel(standing).Outcome(new double[4]);
        double[] guessed = [.. Enumerable.Range(0, exam.ScoredItems + 1).Select(k => Binomial.PMF(0.25, exam.ScoredItems, k))];
        for (int k = 0; k < guessed.Length; k++)
        {
            Assert.Equal(guessed[k], outcome.Total[k], 1e-6);
        }
    }

    [Fact]
    public void Constructed_answers_that_are_not_reached_are_wrong()
    {
        CandidateStanding standing = Standing(Timed(0, 1, 1), [.. Enumerable.Repeat(5000.0, 20)]);
        Assert.Equal(0, new ScoreModel(standing).Outcome(new double[4]).ExpectedCorrect, 1e-3);
    }

    [Fact]
    public void Expected_answers_are_those_of_the_items_reached_and_of_guesses()
    {
        // 50 scored and 10 unscored items in 70 minutes, at about 84 seconds an item: time for about 50 of 60.
        Exam exam = Timed(4, 70, 1000);
        CandidateStanding standing = Standing(exam, Pace(80));
        double reached = Homestretch.Core.Measurement.Pace.ChancesToReach(standing.Taking.Pace!, 60, 70).Sum() / 60;
        ScoreOutcome untimed = new ScoreModel(exam, standing.Posterior).Outcome(new double[4]);
        ScoreOutcome timed = new ScoreModel(standing).Outcome(new double[4]);
        Assert.InRange(reached, 0.7, 0.9);
        for (int t = 0; t < 2; t++)
        {
            Assert.Equal((reached * untimed.TopicExpected[t]) + ((1 - reached) * 0.25 * exam.Topics[t].Items), timed.TopicExpected[t], 0.02);
            Assert.Equal(untimed.TopicExpected[t + 2], timed.TopicExpected[t + 2], 1e-6);
        }
    }

    [Fact]
    public void Marginal_gains_are_differences_under_a_time_limit_too()
    {
        Exam exam = Timed(4, 75, 80);
        ScoreModel model = new(Standing(exam, Pace(70)), null, QuadratureDetail.Coarse);
        double[] effort = [0.3, 0, 0.8, 0.2];
        double[] piece = [0.2, 0.5, 0.4, 0.1];
        EffortChange[] gains = new EffortChange[4];
        double pass = model.Marginal(effort, piece, gains, new EffortChange[4]);
        for (int t = 0; t < 4; t++)
        {
            double[] more = [.. effort];
            more[t] += piece[t];
            Assert.Equal(model.PassChance(more) - pass, gains[t].Pass, 1e-8);
        }
    }

    // Items in random order, scored and unscored mixed; what is not reached is marked by chance.
    private static int Sit(Exam exam, int section, double[] chances, double logPace, double logSd, Random random)
    {
        Section sat = exam.Sections[section];
        int[] order = [.. exam.Topics.SelectMany((t, i) => t.SectionIndex == section ? Enumerable.Repeat(i, t.Items) : []), .. Enumerable.Repeat(-1, sat.UnscoredItems)];
        random.Shuffle(order);
        double clock = 0;
        int correct = 0;
        foreach (int topic in order)
        {
            clock += Math.Exp(logPace + (logSd * Normal.Sample(random, 0, 1)));
            double chance = clock <= sat.Minutes * 60 ? topic < 0 ? 0 : chances[topic] : sat.GuessChance;
            correct += topic >= 0 && random.NextDouble() < chance ? 1 : 0;
        }

        return correct;
    }

    private static Exam Timed(int options, int firstMinutes, int secondMinutes) => SampleExams.Of(
        OverallRule.EverySection,
        null,
        new Section("First", 50, 10, firstMinutes, options, new PercentCut(60), [SampleExams.Topic("A", 30), SampleExams.Topic("B", 20)]),
        new Section("Second", 55, 5, secondMinutes, options, new PercentCut(58), [SampleExams.Topic("C", 40), SampleExams.Topic("D", 15)]));

    private static CandidateStanding Standing(Exam exam, double[] seconds)
    {
        string[] topics = ["A", "B", "C", "D"];
        return StandingCalculator.Calculate(
            exam,
            [new Attempt("Someone", "diagnostic", AttemptKind.Diagnostic, SampleExams.Today, [.. seconds.Select((s, i) => new ItemResponse(topics[i % 4], null, $"{i}", i % 7 is not (2 or 5), s, null))])],
            SampleExams.Today);
    }

    // 40 times about a median, spread 0.4.
    private static double[] Pace(double median)
        => [.. Enumerable.Range(0, 40).Select(i => median * Math.Exp(0.4 * Normal.InvCDF(0, 1, (((i * 13) % 40) + 0.5) / 40)))];
}
