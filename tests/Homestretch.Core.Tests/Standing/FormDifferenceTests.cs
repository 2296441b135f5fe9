using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Tests.Standing;

/// <summary>A test that is known to be easier or harder than the exam.</summary>
public class FormDifferenceTests
{
    private static readonly Exam One = SampleExams.OneSection(new PercentCut(60), SampleExams.Topic("A", 20));

    private static readonly StandingAssumptions Plain = StandingAssumptions.Default with { TopicFormSd = 0 };

    [Theory]
    [InlineData(0.04, 0.25)]
    [InlineData(-0.15, 0.25)]
    [InlineData(0.20, 0.5)]
    [InlineData(0.08, 0)]
    public void Points_are_meant_in_the_middle_of_the_scale(double points, double guess)
    {
        FormDifference difference = FormDifference.OfPoints(points, 0.02, guess);
        double exam = guess + ((1 - guess) / 2);
        double test = guess + ((1 - guess) / (1 + Math.Exp(-difference.Logits)));
        Assert.Equal(points, test - exam, 1e-12);
        Assert.Equal(points, difference.Points(guess), 1e-12);
        Assert.Equal(0.02, difference.PointsSd(guess)!.Value, 1e-12);

        // A small step in points is that step in logits.
        double further = FormDifference.OfPoints(points - (Math.Sign(points) * 1e-6), null, guess).Logits;
        Assert.Equal(1e-6 / Math.Abs(further - difference.Logits), 0.02 / difference.Sd!.Value, 1e-3);
        Assert.Null(FormDifference.OfPoints(points, null, guess).PointsSd(guess));
    }

    [Fact]
    public void Differences_beyond_reason_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => FormDifference.OfPoints(0.21, null, 0.25));
        Assert.Throws<ArgumentOutOfRangeException>(() => FormDifference.OfPoints(-0.21, null, 0.25));
        Assert.Throws<ArgumentOutOfRangeException>(() => FormDifference.OfPoints(0.1, null, 0.6));
    }

    [Fact]
    public void Standing_equals_an_explicit_integral_with_every_chance_moved()
    {
        CandidateStanding standing = StandingCalculator.Calculate(One, With(0.6, null, ("A", 9, 12)), SampleExams.Today, Plain);
        double variance = Math.Pow(Plain.AbilitySd, 2) + Math.Pow(Plain.TopicSd, 2);
        double total = 0;
        double mean = 0;
        for (double t = -9; t <= 9; t += 0.01)
        {
            double onTest = 0.25 + (0.75 / (1 + Math.Exp(-(t + 0.6))));
            double weight = Math.Exp(-0.5 * t * t / variance) * Math.Pow(onTest, 9) * Math.Pow(1 - onTest, 3);
            total += weight;
            mean += weight * (0.25 + (0.75 / (1 + Math.Exp(-t))));
        }

        Assert.Equal(mean / total, standing.Topics[0].Level.Mean, 1e-6);

        // What was seen stays what was seen.
        Assert.Equal(0.75, standing.Topics[0].Observed!.Value.Share, 1e-12);
    }

    [Fact]
    public void Two_tests_of_one_day_keep_their_own_difference()
    {
        Attempt easy = With(0.5, null, ("A", 9, 12))[0];
        Attempt hard = With(-0.5, null, ("A", 5, 10))[0] with { Name = "other" };
        double mean = StandingCalculator.Calculate(One, [easy, hard], SampleExams.Today, Plain).Topics[0].Level.Mean;
        double variance = Math.Pow(Plain.AbilitySd, 2) + Math.Pow(Plain.TopicSd, 2);
        double total = 0;
        double expected = 0;
        for (double t = -9; t <= 9; t += 0.01)
        {
            double onEasy = 0.25 + (0.75 / (1 + Math.Exp(-(t + 0.5))));
            double onHard = 0.25 + (0.75 / (1 + Math.Exp(-(t - 0.5))));
            double weight = Math.Exp(-0.5 * t * t / variance) * Math.Pow(onEasy, 9) * Math.Pow(1 - onEasy, 3) * Math.Pow(onHard, 5) * Math.Pow(1 - onHard, 5);
            total += weight;
            expected += weight * (0.25 + (0.75 / (1 + Math.Exp(-t))));
        }

        Assert.Equal(expected / total, mean, 1e-6);
    }

    [Fact]
    public void Answers_to_items_of_a_bank_are_moved_too()
    {
        ItemBank bank = new([.. Enumerable.Range(1, 10).Select(i => new BankItem("A", $"{i}", ItemModel.ThreeParameter, new ItemCurve(1, 0, 0.25), null, null, null))]);
        ImmutableArray<Observation> answers = [.. Enumerable.Range(1, 10).Select(i => (Observation)new ItemResponse("A", null, $"{i}", i <= 7, null, null))];
        Attempt attempt = new("Someone", "diagnostic", AttemptKind.Diagnostic, SampleExams.Today, answers) { Form = new FormDifference(0.4, null) };

        // Items as the curve of the topic has them: the same as a count, without the spread of the test's draw.
        double byBank = StandingCalculator.Calculate(One, [attempt], SampleExams.Today, null, bank).Topics[0].Level.Mean;
        double byCount = StandingCalculator.Calculate(One, With(0.4, null, ("A", 7, 10)), SampleExams.Today, Plain).Topics[0].Level.Mean;
        Assert.Equal(byCount, byBank, 1e-6);
    }

    [Fact]
    public void What_is_known_of_a_tests_difference_takes_the_place_of_the_usual_spread()
    {
        StandingAssumptions usual = StandingAssumptions.Default;
        Assert.Equal(usual.FormSd, FormSd([Of(AttemptKind.Diagnostic, 10, null)]), 1e-12);
        Assert.Equal(usual.OfficialFormSd, FormSd([Of(AttemptKind.Official, 10, null)]), 1e-12);
        Assert.Equal(0.07, FormSd([Of(AttemptKind.Diagnostic, 10, new FormDifference(0.3, 0.07))]), 1e-12);
        Assert.Equal(0.07, FormSd([Of(AttemptKind.Official, 10, new FormDifference(0.3, 0.07))]), 1e-12);
        Assert.Equal(usual.FormSd, FormSd([Of(AttemptKind.Diagnostic, 10, new FormDifference(0.3, null))]), 1e-12);

        // In proportion to the items.
        double mixed = Math.Sqrt(((30 * 0.07 * 0.07) + (10 * usual.FormSd * usual.FormSd)) / 40);
        Assert.Equal(mixed, FormSd([Of(AttemptKind.PracticeExam, 30, new FormDifference(0.3, 0.07)), Of(AttemptKind.Diagnostic, 10, null)]), 1e-12);
        Assert.Equal(usual.FormSd, FormSd([]), 1e-12);

        static double FormSd(ImmutableArray<Attempt> attempts) => StandingCalculator.Calculate(One, attempts, SampleExams.Today).Posterior.FormSd;

        static Attempt Of(AttemptKind kind, int items, FormDifference? form)
            => new("Someone", $"{kind}", kind, SampleExams.Today, [TopicCount.Exact("A", items / 2, items)]) { Form = form };
    }

    [Fact]
    public void An_easier_test_promises_less_and_a_surer_one_spreads_less()
    {
        Forecast plain = Forecast(null);
        Forecast easier = Forecast(FormDifference.OfPoints(0.06, null, 0.25));
        Forecast harder = Forecast(FormDifference.OfPoints(-0.06, null, 0.25));
        Forecast sure = Forecast(FormDifference.OfPoints(0, 0.005, 0.25));
        Assert.True(easier.ExpectedCorrect < plain.ExpectedCorrect - 0.3);
        Assert.True(harder.ExpectedCorrect > plain.ExpectedCorrect + 0.3);
        Assert.True(Variance(sure) < Variance(plain));
        Assert.Equal(plain.ExpectedCorrect, sure.ExpectedCorrect, 0.1);

        static Forecast Forecast(FormDifference? form) => ForecastCalculator.Calculate(
            StandingCalculator.Calculate(One, [SampleExams.Diagnostic(("A", 14, 20))[0] with { Form = form }], SampleExams.Today));

        static double Variance(Forecast forecast) => forecast.Distribution.Select((p, k) => p * Math.Pow(k - forecast.ExpectedCorrect, 2)).Sum();
    }

    private static ImmutableArray<Attempt> With(double logits, double? sd, params (string Topic, int Correct, int Items)[] counts)
        => [SampleExams.Diagnostic(counts)[0] with { Form = new FormDifference(logits, sd) }];
}
