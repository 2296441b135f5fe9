using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

using MathNet.Numerics.Distributions;

namespace Homestretch.Core.Tests.Measurement;

public class ItemCalibrationTests
{
    [Fact]
    public void Too_few_people_are_refused_with_the_number_missing()
    {
        UnsuitableDataException error = Assert.Throws<UnsuitableDataException>(() => ItemCalibration.Of(Draw(21, 1), cancellation: TestContext.Current.CancellationToken));
        Assert.Equal("Calibrating items takes answers of 30 people to one test; 21 took this one, so 9 are missing.", error.Message);
    }

    [Fact]
    public void Equal_slopes_choose_rasch_and_unequal_ones_the_two_parameter_model()
    {
        ItemCalibration equal = ItemCalibration.Of(Draw(800, 2), cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(ItemModel.Rasch, equal.Chosen.Model);
        Assert.Equal([ItemModel.Rasch, ItemModel.TwoParameter], equal.Trials.Select(t => t.Model));
        Assert.Equal(equal.Trials.MinBy(t => t.Calibration!.Bic)!.Model, equal.Chosen.Model);
        Assert.Contains("BIC", equal.Reason, StringComparison.Ordinal);

        ItemCalibration unequal = ItemCalibration.Of(Draw(800, 3, slopes: [0.5, 2.2]), cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(ItemModel.TwoParameter, unequal.Chosen.Model);
        Assert.All(unequal.Items, i => Assert.NotNull(i.Fit!.Probability));
        Assert.All(unequal.Items, i => Assert.Null(i.Residuals));
    }

    // Two and a half standard errors, twelve items: one in seven such draws would fail; this seed does not.
    [Fact]
    public void Difficulties_are_recovered_and_enter_the_bank_with_their_errors()
    {
        ItemCalibration fit = ItemCalibration.Of(Draw(800, 4), ItemModel.Rasch, TestContext.Current.CancellationToken);
        Assert.Equal("The Rasch model was asked for.", fit.Reason);
        ItemBank bank = fit.ToBank("autumn");
        Assert.Equal(12, bank.Items.Length);
        foreach ((BankItem item, int i) in bank.Items.Select((item, i) => (item, i)))
        {
            Assert.Equal("autumn", item.Test);
            Assert.Equal(i % 2 == 0 ? "A" : "B", item.Topic);
            Assert.InRange(item.DifficultyError!.Value, 0.05, 0.15);
            Assert.InRange(item.Curve.Difficulty, Hard(i) - (2.5 * item.DifficultyError.Value), Hard(i) + (2.5 * item.DifficultyError.Value));
        }

        Assert.All(fit.Items, i => Assert.InRange(i.Residuals!.Infit, 0.8, 1.2));
    }

    [Fact]
    public void What_cannot_be_calibrated_is_left_out_with_the_reason()
    {
        // The first item is right for everybody, the second has its key turned round.
        ItemCalibration fit = ItemCalibration.Of(Draw(400, 5, turned: 1, easy: 0), cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(["q2", "q1"], fit.LeftOut.Select(i => i.Item));
        Assert.Equal("Its key is probably wrong; mend the key and calibrate again.", fit.LeftOut[0].Reason);
        Assert.StartsWith("Everybody who answered it got it right", fit.LeftOut[1].Reason, StringComparison.Ordinal);
        Assert.Equal(10, fit.Items.Length);
    }

    [Fact]
    public void Items_not_reached_are_missing_and_items_left_blank_are_wrong()
    {
        ItemScores all = Draw(400, 6);
        ItemScores slow = With(all, 11, (p, a) => p % 2 == 0 ? a with { Score = ItemScore.NotReached } : a);
        ItemScores blank = With(all, 11, (p, a) => p % 2 == 0 ? a with { Score = ItemScore.Omitted } : a);
        double Difficulty(ItemScores scores) => ItemCalibration.Of(scores, ItemModel.Rasch, TestContext.Current.CancellationToken).Items[11].Estimate.Curve.Difficulty;
        Assert.Equal(Difficulty(all), Difficulty(slow), 0.4);
        Assert.True(Difficulty(blank) > Difficulty(all) + 0.5);
        Assert.Equal(200, ItemCalibration.Of(slow, ItemModel.Rasch, TestContext.Current.CancellationToken).Items[11].Reached);
    }

    [Fact]
    public void Guessing_is_tried_only_where_there_are_options()
    {
        Assert.Contains(ItemModel.ThreeParameter, ItemCalibration.Of(Draw(200, 7, guess: 0.25), cancellation: TestContext.Current.CancellationToken).Trials.Select(t => t.Model));
        UnsuitableDataException error = Assert.Throws<UnsuitableDataException>(() => ItemCalibration.Of(Draw(200, 7), ItemModel.ThreeParameter, TestContext.Current.CancellationToken));
        Assert.Contains("no options to guess from", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Answers_that_carry_no_model_are_refused_in_words()
    {
        ItemScores alike = new([new TestItem("q1", "A"), new TestItem("q2", "A")], [.. Enumerable.Range(0, 40).Select(p => new PersonAnswers($"P{p}", [new ItemAnswer(ItemScore.Right), new ItemAnswer(ItemScore.Wrong)]))]);
        UnsuitableDataException error = Assert.Throws<UnsuitableDataException>(() => ItemCalibration.Of(alike, cancellation: TestContext.Current.CancellationToken));
        Assert.StartsWith("The Rasch model needs at least 2 items", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void An_item_that_does_not_follow_its_curve_is_said_to_stray()
    {
        // Right in the middle of the scale and wrong at both ends: no logistic curve does that.
        ItemScores scores = Draw(1500, 8, odd: 11);
        CalibratedItem[] items = [.. ItemCalibration.Of(scores, ItemModel.TwoParameter, TestContext.Current.CancellationToken).Items];
        Assert.Equal(CurveVerdict.Strays, items.Single(i => i.Item.Label == "q12").Verdict);
        Assert.True(items.Count(i => i.Verdict == CurveVerdict.Follows) >= 8);
    }

    private static double Hard(int item) => (item - 5.5) / 3;

    private static ItemScores With(ItemScores scores, int item, Func<int, ItemAnswer, ItemAnswer> change)
        => new(scores.Items, [.. scores.Persons.Select((p, i) => p with { Answers = p.Answers.SetItem(item, change(i, p.Answers[item])) })]);

    // Twelve items a third of a logit apart, abilities standard normal.
    private static ItemScores Draw(int people, int seed, double guess = 0, double[]? slopes = null, int turned = -1, int easy = -1, int odd = -1)
    {
        Random random = new(seed);
        Normal normal = new(0, 1, random);
        slopes ??= [1];
        return new ItemScores(
            [.. Enumerable.Range(0, 12).Select(i => new TestItem($"q{i + 1}", i % 2 == 0 ? "A" : "B", null, guess))],
            [.. Enumerable.Range(0, people).Select(p =>
            {
                double ability = normal.Sample();
                return new PersonAnswers($"P{p}", [.. Enumerable.Range(0, 12).Select(i =>
                {
                    double chance = guess + ((1 - guess) / (1 + Math.Exp(-slopes[i % slopes.Length] * (ability - Hard(i)))));
                    chance = i == easy ? 1 : i == turned ? 1 - chance : i == odd ? 0.9 * Math.Exp(-2 * (ability - 0.4) * (ability - 0.4)) : chance;
                    return new ItemAnswer(random.NextDouble() < chance ? ItemScore.Right : ItemScore.Wrong);
                })]);
            })]);
    }
}
