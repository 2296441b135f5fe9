using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

using MathNet.Numerics.Integration;

namespace Homestretch.Core.Tests.Measurement;

public class AbilityEstimationTests
{
    private static readonly ItemCurve[] Curves = [new(1.3, -1.2, 0.2), new(0.8, 0.1, 0), new(2.1, 0.7, 0.25), new(1, 1.6, 0), new(1.4, -0.4, 0.15)];

    [Theory]
    [InlineData("RRRRR", 0, 1)]
    [InlineData("WWWWW", 0, 1)]
    [InlineData("RWR-W", 0.4, 1.3)]
    [InlineData("-----", -0.5, 0.8)]
    public void Eap_equals_integration_by_another_rule(string text, double mean, double sd)
    {
        Answer[] answers = Parse(text);
        double Weight(double t) => Math.Exp(-0.5 * Math.Pow((t - mean) / sd, 2)) * Likelihood(answers, t);
        double whole = GaussLegendreRule.Integrate(Weight, mean - (9 * sd), mean + (9 * sd), 256);
        double first = GaussLegendreRule.Integrate(t => t * Weight(t), mean - (9 * sd), mean + (9 * sd), 256) / whole;
        double second = GaussLegendreRule.Integrate(t => t * t * Weight(t), mean - (9 * sd), mean + (9 * sd), 256) / whole;
        AbilityEstimate estimate = AbilityEstimation.Eap(Curves, answers, mean, sd);
        Assert.Equal(first, estimate.Ability, 1e-7);
        Assert.Equal(Math.Sqrt(second - (first * first)), estimate.Error, 1e-6);
    }

    [Theory]
    [InlineData("RRRRR")]
    [InlineData("WWWWW")]
    [InlineData("RWR-W")]
    [InlineData("RRWRR")]
    public void Wle_is_where_likelihood_times_root_information_is_highest(string text)
    {
        // Warm's estimate maximises likelihood times root of information for one- and two-parameter items only; his equation in general. Both are
        // checked: the first without guessing, by a fine search; the second with it, by derivatives taken numerically.
        ItemCurve[] plain = [.. Curves.Select(c => c with { Guessing = 0 })];
        Answer[] answers = Parse(text);
        AbilityEstimate estimate = AbilityEstimation.Wle(plain, answers)!.Value;
        double best = Enumerable.Range(0, 200_001).Select(i => -10 + (i * 1e-4)).MaxBy(t => Math.Log(Likelihood(answers, t, plain)) + (0.5 * Math.Log(Information(answers, t, plain))));
        Assert.Equal(best, estimate.Ability, 1.1e-4);
        Assert.Equal(1 / Math.Sqrt(Information(answers, estimate.Ability, plain)), estimate.Error, 1e-6);

        double theta = AbilityEstimation.Wle(Curves, answers)!.Value.Ability;
        const double H = 1e-4;
        double score = (Math.Log(Likelihood(answers, theta + H)) - Math.Log(Likelihood(answers, theta - H))) / (2 * H);
        double j = 0;
        for (int i = 0; i < Curves.Length; i++)
        {
            if (answers[i] != Answer.Missing)
            {
                double p = Curves[i].Chance(theta), up = Curves[i].Chance(theta + H), down = Curves[i].Chance(theta - H);
                j += (up - down) / (2 * H) * ((up - (2 * p) + down) / (H * H)) / (p * (1 - p));
            }
        }

        Assert.Equal(0, score + (j / (2 * Information(answers, theta))), 1e-4);
    }

    [Fact]
    public void Without_answers_there_is_no_wle_and_eap_is_the_prior()
    {
        Assert.Null(AbilityEstimation.Wle(Curves, Parse("-----")));
        Assert.Equal(0, AbilityEstimation.Eap(Curves, Parse("-----")).Ability, 1e-12);
        Assert.Equal(1, AbilityEstimation.Eap(Curves, Parse("-----")).Error, 1e-9);
    }

    // ltm's factor.scores of the two-parameter model print z1 = -1.895 with 0.795 for nobody right and -1.479 with 0.796 for only item 5 right. Those are
    // modes; mirt's EAP, from its tests: -1.887714 and -1.473829, by quasi-Monte Carlo, hence the tolerance.
    [Fact]
    public void Eap_of_lsat6_is_as_published()
    {
        MarginalCalibration fit = MarginalEstimation.Fit(Lsat6.Data, ItemModel.TwoParameter, cancellation: TestContext.Current.CancellationToken);
        System.Collections.Immutable.ImmutableArray<AbilityEstimate> all = AbilityEstimation.EapOfAll(fit, Lsat6.Data, TestContext.Current.CancellationToken);
        Assert.Equal(1000, all.Length);
        Assert.Equal(-1.8877, all[0].Ability, 0.01);
        Assert.Equal(-1.4738, all[3].Ability, 0.01);
        Assert.Equal(all[3], all[8]);
    }

    private static Answer[] Parse(string text) => [.. text.Select(c => c switch { 'R' => Answer.Right, 'W' => Answer.Wrong, _ => Answer.Missing })];

    private static double Likelihood(Answer[] answers, double theta, ItemCurve[]? curves = null)
        => answers.Select((a, i) => a == Answer.Missing ? 1 : a == Answer.Right ? (curves ?? Curves)[i].Chance(theta) : 1 - (curves ?? Curves)[i].Chance(theta)).Aggregate(1.0, (x, y) => x * y);

    private static double Information(Answer[] answers, double theta, ItemCurve[]? curves = null)
    {
        double sum = 0;
        for (int i = 0; i < answers.Length; i++)
        {
            ItemCurve curve = (curves ?? Curves)[i];
            double p = curve.Chance(theta);
            double slope = (curve.Chance(theta + 1e-5) - curve.Chance(theta - 1e-5)) / 2e-5;
            sum += answers[i] == Answer.Missing ? 0 : slope * slope / (p * (1 - p));
        }

        return sum;
    }
}
