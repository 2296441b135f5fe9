using Homestretch.Core.AdaptiveTesting;
using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Tests.AdaptiveTesting;

public class PassSurenessTests
{
    [Fact]
    public void A_known_ability_gives_the_chance_found_by_brute_force()
    {
        // One topic: the count is binomial at the ability moved by form and draw of items, both normal; summed here on a fine square of the two.
        Exam exam = SampleExams.OneSection(new PercentCut(60), SampleExams.Topic("A", 20));
        AbilityPosterior posterior = AdaptiveCases.Posterior(exam, AdaptiveCases.Bank(exam, 1));
        PassByAbility pass = new(exam, posterior);
        StandingAssumptions assumptions = StandingAssumptions.Default;
        for (int point = 40; point < posterior.Grid.Count - 40; point += 7)
        {
            double sum = 0;
            double total = 0;
            for (double z = -6; z <= 6; z += 0.1)
            {
                for (double y = -6; y <= 6; y += 0.1)
                {
                    double weight = Math.Exp(-0.5 * ((z * z) + (y * y)));
                    double ability = posterior.Grid[point] + (z * assumptions.FormSd) + (y * assumptions.TopicFormSd);
                    double chance = 0.25 + (0.75 / (1 + Math.Exp(-ability)));
                    sum += weight * (1 - MathNet.Numerics.Distributions.Binomial.CDF(chance, 20, 11));
                    total += weight;
                }
            }

            Assert.Equal(sum / total, pass.PassChance([point]), 2e-4);
        }
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Spread_of_the_pass_chance_is_that_of_many_random_draws(bool sections)
    {
        Exam exam = sections ? AdaptiveCases.TwoSections : AdaptiveCases.OneTotal;
        AbilityPosterior posterior = AdaptiveCases.Posterior(exam, AdaptiveCases.Bank(exam, 1), [.. SampleExams.HalfLength(exam, 0.6, 0.8, 0.5)]);
        PassByAbility pass = new(exam, posterior);
        double mean = new ScoreModel(exam, posterior).PassChance(new double[exam.Topics.Length]);
        PassSureness sureness = PassSureness.Of(posterior, pass, mean);

        const int Draws = 40_000;
        Random random = new(5);
        double[] chances = [.. Enumerable.Range(0, Draws).Select(_ => pass.PassChance(Abilities(posterior, random)))];
        Array.Sort(chances);
        double drawnMean = chances.Average();
        double drawnSd = Math.Sqrt(chances.Average(c => (c - drawnMean) * (c - drawnMean)));
        Assert.Equal(mean, drawnMean, 4 * drawnSd / Math.Sqrt(Draws));
        Assert.Equal(drawnSd, sureness.Sd, 0.004);
        Assert.Equal(chances[Draws / 20], sureness.Low, 0.02);
        Assert.Equal(chances[Draws - (Draws / 20)], sureness.High, 0.02);
    }

    [Fact]
    public void Ability_together_with_a_pass_sums_to_the_forecast()
    {
        Exam exam = SampleExams.Large();
        AbilityPosterior posterior = AdaptiveCases.Posterior(exam, AdaptiveCases.Bank(exam, 1), [.. SampleExams.HalfLength(exam, 0.7, 0.6, 0.8)]);
        double expected = new ScoreModel(exam, posterior).PassChance(new double[exam.Topics.Length]);
        foreach (AbilityWithPass topic in new PassByAbility(exam, posterior).Joint())
        {
            Assert.Equal(1, Spans.Sum(topic.Density), 1e-9);
            Assert.Equal(expected, Spans.Sum(topic.Passing), 2e-4);
            Assert.All(topic.Density.Zip(topic.Passing), p => Assert.InRange(p.Second, 0, p.First + 1e-12));
        }
    }

    internal static int[] Abilities(AbilityPosterior posterior, Random random)
    {
        int node = Pick(posterior.Weights.AsSpan(), random);
        return [.. Enumerable.Range(0, posterior.Curves.Length).Select(t =>
        {
            ConditionalAbility conditional = posterior.Conditional(t, node);
            return conditional.Start + Pick(conditional.Density.AsSpan(), random);
        })];
    }

    private static int Pick(ReadOnlySpan<double> weights, Random random)
    {
        double left = random.NextDouble() * Spans.Sum(weights);
        int i = 0;
        while (i + 1 < weights.Length && (left -= weights[i]) > 0)
        {
            i++;
        }

        return i;
    }
}
