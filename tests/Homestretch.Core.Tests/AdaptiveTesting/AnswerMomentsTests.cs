using System.Collections.Immutable;

using Homestretch.Core.AdaptiveTesting;
using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Tests.AdaptiveTesting;

/// <summary>What an answer would change, against computing standing and forecast anew with that answer.</summary>
public class AnswerMomentsTests
{
    public static TheoryData<string, bool> Cases() => new()
    {
        { nameof(AdaptiveCases.OneTotal), false },
        { nameof(AdaptiveCases.OneTotal), true },
        { nameof(AdaptiveCases.TwoSections), false },
        { nameof(AdaptiveCases.TwoSections), true },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Pass_chances_after_an_answer_are_those_of_a_new_forecast(string name, bool answered)
    {
        (Exam exam, ItemBank bank, ImmutableArray<Attempt> attempts, AnswerMoments moments) = Case(name, answered);
        for (int i = 0; i < bank.Items.Length; i++)
        {
            BankItem item = bank.Items[i];
            double right = AdaptiveCases.PassChance(exam, bank, attempts, (item, true));
            double wrong = AdaptiveCases.PassChance(exam, bank, attempts, (item, false));
            Assert.Equal(right, moments.PassAfter(i, right: true), 2e-5);
            Assert.Equal(wrong, moments.PassAfter(i, right: false), 2e-5);

            // The law of total probability, and the covariance in its two forms.
            double chance = moments.Chance(i);
            Assert.Equal(AdaptiveCases.PassChance(exam, bank, attempts), (chance * right) + ((1 - chance) * wrong), 2e-5);
            Assert.Equal(chance * (1 - chance) * (right - wrong), moments.CovarianceWithPass(i), 1e-5);
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Covariances_of_answers_are_those_of_a_new_standing(string name, bool answered)
    {
        (Exam exam, ItemBank bank, ImmutableArray<Attempt> attempts, AnswerMoments moments) = Case(name, answered);
        for (int i = 0; i < bank.Items.Length; i += 3)
        {
            AnswerMoments after = Moments(exam, bank, [.. attempts, AdaptiveCases.Sitting((bank.Items[i], true))]);
            for (int j = 0; j < bank.Items.Length; j++)
            {
                double expected = moments.Chance(i) * ((i == j ? 1 : after.Chance(j)) - moments.Chance(j));
                Assert.Equal(expected, moments.Covariance(i, j), 1e-6);
            }
        }
    }

    [Fact]
    public void Covariances_with_levels_are_those_of_a_new_standing()
    {
        (Exam exam, ItemBank bank, ImmutableArray<Attempt> attempts, AnswerMoments moments) = Case(nameof(AdaptiveCases.OneTotal), true);
        for (int t = 0; t < exam.Topics.Length; t++)
        {
            ImmutableArray<BandIndicator> bands = moments.Bands(exam.Topics[t], t, exam.Bands);
            BandChances now = Chances(t);
            for (int i = 0; i < bank.Items.Length; i += 2)
            {
                BandChances after = Chances(t, AdaptiveCases.Sitting((bank.Items[i], true)));

                // The standing reads the ends of the bands off a smooth curve, the moments off the grid's cells.
                Assert.Equal(moments.Chance(i) * (after.Weak - now.Weak), moments.CovarianceWith(i, bands[0]), 5e-4);
                Assert.Equal(moments.Chance(i) * (after.Borderline - now.Borderline), moments.CovarianceWith(i, bands[1]), 5e-4);
                Assert.Equal(moments.Chance(i) * (after.Strong - now.Strong), moments.CovarianceWith(i, bands[2]), 5e-4);
            }
        }

        BandChances Chances(int topic, params Attempt[] more)
            => StandingCalculator.Calculate(exam, [.. attempts, .. more], SampleExams.Today, null, bank).Topics[topic].Level.Chances;
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void What_a_set_tells_is_close_to_the_whole_and_never_more(string name, bool answered)
    {
        (Exam exam, ItemBank bank, ImmutableArray<Attempt> attempts, AnswerMoments moments) = Case(name, answered);
        foreach (int[] set in (int[][])[[0, 1, 2], [0, 7, 13], [3, 4, 16]])
        {
            ItemSearch search = new(bank.Items.Length, moments.Covariance, Enumerable.Range(0, bank.Items.Length).Select(i => ImmutableArray.Create(moments.CovarianceWithPass(i))));
            double line = 0;
            foreach (int item in set)
            {
                line += search.Information(item);
                search.Take(item);
                Assert.Equal(0, search.Information(item));
            }

            double whole = Whole(exam, bank, attempts, set);
            Assert.InRange(line, 0.9 * whole, whole + 1e-6);
        }
    }

    // Expected squared change of the pass chance over every pattern of answers to the set.
    private static double Whole(Exam exam, ItemBank bank, ImmutableArray<Attempt> attempts, int[] set)
    {
        double now = AdaptiveCases.PassChance(exam, bank, attempts);
        double sum = 0;
        for (int pattern = 0; pattern < 1 << set.Length; pattern++)
        {
            double chance = 1;
            List<(BankItem Item, bool Right)> answers = [];
            for (int j = 0; j < set.Length; j++)
            {
                bool right = (pattern >> j & 1) == 1;
                double next = Moments(exam, bank, [.. attempts, AdaptiveCases.Sitting([.. answers])]).Chance(set[j]);
                chance *= right ? next : 1 - next;
                answers.Add((bank.Items[set[j]], right));
            }

            double change = AdaptiveCases.PassChance(exam, bank, attempts, [.. answers]) - now;
            sum += chance * change * change;
        }

        return sum;
    }

    private static (Exam Exam, ItemBank Bank, ImmutableArray<Attempt> Attempts, AnswerMoments Moments) Case(string name, bool answered)
    {
        Exam exam = name == nameof(AdaptiveCases.OneTotal) ? AdaptiveCases.OneTotal : AdaptiveCases.TwoSections;
        ItemBank bank = AdaptiveCases.Bank(exam, 6);
        ImmutableArray<Attempt> attempts = answered ? [.. SampleExams.HalfLength(exam, 0.6, 0.8, 0.4), AdaptiveCases.Sitting((bank.Items[5], true), (bank.Items[9], false))] : [];
        return (exam, bank, attempts, Moments(exam, bank, attempts));
    }

    private static AnswerMoments Moments(Exam exam, ItemBank bank, ImmutableArray<Attempt> attempts)
    {
        AbilityPosterior posterior = AdaptiveCases.Posterior(exam, bank, [.. attempts]);
        return new AnswerMoments(exam, posterior, new PassByAbility(exam, posterior).Joint(), bank, bank.Items);
    }
}
