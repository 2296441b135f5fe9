using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Standing;

using MathNet.Numerics.Integration;

namespace Homestretch.Core.Tests.Standing;

public class ItemBankTests
{
    private static readonly StandingAssumptions NoFormEffects = StandingAssumptions.Default with { TopicFormSd = 0 };
    private static readonly Exam One = SampleExams.OneSection(new PercentCut(60), SampleExams.Topic("A", 10));

    [Theory]
    [InlineData(1, 0, 0.25)]
    [InlineData(0.4, -1.7, 0)]
    [InlineData(2.3, 0.9, 0.1)]
    public void A_bank_of_equal_items_changes_nothing_whatever_its_scale(double slope, double difficulty, double guessing)
    {
        ItemCurve curve = new(slope, difficulty, guessing);
        ItemBank bank = new([.. Enumerable.Range(1, 9).Select(i => new BankItem("A", $"q{i}", ItemModel.ThreeParameter, curve))]);
        ImmutableArray<Attempt> attempts = Answers(true, true, false, true, false, true);
        Level without = StandingCalculator.Calculate(One, attempts, SampleExams.Today, NoFormEffects).Topics[0].Level;
        Level with = StandingCalculator.Calculate(One, attempts, SampleExams.Today, NoFormEffects, bank).Topics[0].Level;
        Assert.Equal(without.Mean, with.Mean, 1e-6);
        Assert.Equal(without.Low, with.Low, 1e-6);
        Assert.Equal(without.High, with.High, 1e-6);
        Assert.Equal(without.Chances.Weak, with.Chances.Weak, 1e-6);
    }

    [Fact]
    public void Right_answers_to_hard_items_say_more_than_to_easy_ones()
    {
        ItemBank bank = new([.. Enumerable.Range(1, 6).Select(i => new BankItem("A", $"q{i}", ItemModel.Rasch, new ItemCurve(1, i <= 3 ? -1.5 : 1.5, 0)))]);
        double easyRight = Mean(Answers(true, true, true), bank);
        double hardRight = Mean([.. Answers(false, false, false, true, true, true).Select(a => a with { Observations = a.Observations[3..] })], bank);
        double anyRight = Mean(Answers(true, true, true), null);
        Assert.True(easyRight + 0.02 < anyRight, $"{easyRight} against {anyRight}");
        Assert.True(anyRight + 0.02 < hardRight, $"{anyRight} against {hardRight}");
    }

    [Fact]
    public void Posterior_with_a_bank_equals_direct_integration()
    {
        // Two-parameter items, no guessing in the section: topic ability t is linked by the items' mean chance, solved here by plain bisection.
        Exam exam = SampleExams.OneSection(new PercentCut(60), 0, [SampleExams.Topic("A", 10)]);
        ItemCurve[] curves = [new(0.7, -1, 0), new(1.6, 0.3, 0), new(1.1, 1.2, 0)];
        bool[] right = [true, true, false];
        ItemBank bank = new([.. curves.Select((c, i) => new BankItem("A", $"q{i + 1}", ItemModel.TwoParameter, c))]);
        double Linked(double t)
        {
            double low = -60, high = 60;
            for (int i = 0; i < 200; i++)
            {
                double middle = (low + high) / 2;
                (low, high) = curves.Average(c => c.Chance(middle)) < 1 / (1 + Math.Exp(-t)) ? (middle, high) : (low, middle);
            }

            return low;
        }

        double variance = (NoFormEffects.AbilitySd * NoFormEffects.AbilitySd) + (NoFormEffects.TopicSd * NoFormEffects.TopicSd);
        double Weight(double t)
        {
            double product = Math.Exp(-0.5 * t * t / variance);
            for (int j = 0; j < curves.Length; j++)
            {
                double chance = curves[j].Chance(Linked(t));
                product *= right[j] ? chance : 1 - chance;
            }

            return product;
        }

        double total = GaussLegendreRule.Integrate(Weight, -7.5, 7.5, 128);
        double mean = GaussLegendreRule.Integrate(t => Weight(t) / (1 + Math.Exp(-t)), -7.5, 7.5, 128) / total;
        Level level = StandingCalculator.Calculate(exam, Answers(right), SampleExams.Today, NoFormEffects, bank).Topics[0].Level;
        Assert.Equal(mean, level.Mean, 1e-5);
    }

    [Fact]
    public void Items_that_the_bank_lacks_count_as_before()
    {
        ItemBank other = new([new BankItem("B", "q1", ItemModel.Rasch, new ItemCurve(1, 2, 0)), new BankItem("A", "z9", ItemModel.Rasch, new ItemCurve(1, 2, 0))]);
        ImmutableArray<Attempt> attempts = Answers(true, false, true);
        Assert.Equal(Mean(attempts, null), Mean(attempts, other));
    }

    [Fact]
    public void Items_of_another_test_that_are_numbered_alike_are_not_taken_for_the_banks()
    {
        ItemBank bank = new([new BankItem("A", "q1", ItemModel.Rasch, new ItemCurve(1, 2, 0), Test: "Autumn test"), new BankItem("A", "q2", ItemModel.Rasch, new ItemCurve(1, -1, 0), Test: "Autumn test")]);
        ImmutableArray<Attempt> attempts = Answers(true, false, true);
        Assert.Equal(Mean(attempts, null), Mean(attempts, bank));
        CandidateStanding own = StandingCalculator.Calculate(One, [attempts[0] with { Name = "autumn TEST" }], SampleExams.Today, NoFormEffects, bank);
        Assert.Equal(2, own.CalibratedItems);
        Assert.NotEqual(Mean(attempts, null), own.Topics[0].Level.Mean);
        Assert.Null(bank.Find("A", "q1", null));
        Assert.NotNull(new ItemBank([bank.Items[0] with { Test = null }]).Find("A", "q1", "any test"));
    }

    [Fact]
    public void Extreme_items_and_answers_give_numbers()
    {
        ItemBank bank = new([
            new BankItem("A", "q1", ItemModel.ThreeParameter, new ItemCurve(9, 8, 0.5)),
            new BankItem("A", "q2", ItemModel.ThreeParameter, new ItemCurve(0.05, -9, 0)),
            new BankItem("A", "q3", ItemModel.ThreeParameter, new ItemCurve(9, -8, 0.9)),
        ]);
        foreach (bool[] answers in (bool[][])[[true, true, true], [false, false, false], [true, false, false]])
        {
            Level level = StandingCalculator.Calculate(One, Answers(answers), SampleExams.Today, StandingAssumptions.Default, bank).Topics[0].Level;
            Assert.InRange(level.Mean, 0.2, 1);
            Assert.True(level.Low <= level.Mean && level.Mean <= level.High);
        }
    }

    [Fact]
    public void Curves_that_do_not_rise_and_labels_that_come_twice_are_refused()
    {
        Assert.Throws<ArgumentException>(() => new ItemBank([new BankItem("A", "q1", ItemModel.TwoParameter, new ItemCurve(-0.3, 0, 0))]));
        Assert.Throws<ArgumentException>(() => new ItemBank([new BankItem("A", "q1", ItemModel.TwoParameter, new ItemCurve(1, double.NaN, 0))]));
        BankItem item = new("A", "q1", ItemModel.Rasch, new ItemCurve(1, 0, 0));
        Assert.Throws<ArgumentException>(() => new ItemBank([item, item]));
    }

    private static double Mean(ImmutableArray<Attempt> attempts, ItemBank? bank)
        => StandingCalculator.Calculate(One, attempts, SampleExams.Today, NoFormEffects, bank).Topics[0].Level.Mean;

    private static ImmutableArray<Attempt> Answers(params bool[] right)
        => [new Attempt("Someone", "diagnostic", AttemptKind.Diagnostic, SampleExams.Today, [.. right.Select((r, i) => (Observation)new ItemResponse("A", null, $"q{i + 1}", r, null, null))])];
}
