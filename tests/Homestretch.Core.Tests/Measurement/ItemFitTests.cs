using System.Collections.Immutable;

using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Tests.Measurement;

public class ItemFitTests
{
    // S-X2 as printed by mirt 1.45.6's itemfit for its model of LSAT 6 with equal slopes. mirt takes two parameters off per item (the shared slope too), we one.
    [Fact]
    public void S_X2_of_lsat6_is_as_published()
    {
        MarginalCalibration fit = MarginalEstimation.Fit(Lsat6.Data, ItemModel.Rasch, cancellation: TestContext.Current.CancellationToken);
        ImmutableArray<ItemFit> fits = ItemFitTest.SX2(fit, Lsat6.Data);
        double[] published = [0.436, 1.576, 0.871, 0.190, 0.190];
        Assert.All(published.Zip(fits), pair => Assert.Equal(pair.First, pair.Second.Statistic, 2e-3));
    }

    [Fact]
    public void S_X2_rejects_as_rarely_as_it_should_and_finds_a_curve_that_is_not_logistic()
    {
        ItemCurve[] curves = [.. Enumerable.Range(0, 10).Select(j => new ItemCurve(0.8 + (0.08 * j), -1.5 + (0.3 * j), 0))];
        int rejected = 0;
        for (int seed = 1; seed <= 30; seed++)
        {
            ResponseMatrix data = SimulatedAnswers.Draw(curves, 1000, 1, seed);
            rejected += ItemFitTest.SX2(MarginalEstimation.Fit(data, ItemModel.TwoParameter, cancellation: TestContext.Current.CancellationToken), data).Count(f => f.Probability < 0.05);
        }

        // 300 tests at 5 %: 15 expected, standard deviation 3.8.
        Assert.InRange(rejected, 3, 31);

        ItemCurve[] guessed = [.. curves];
        guessed[9] = new ItemCurve(3, 1, 0.4);
        ResponseMatrix odd = SimulatedAnswers.Draw(guessed, 5000, 1, 1);
        MarginalCalibration fit = MarginalEstimation.Fit(odd, ItemModel.TwoParameter, cancellation: TestContext.Current.CancellationToken);
        Assert.True(ItemFitTest.SX2(fit, odd)[9].Probability < 0.001);
    }

    // eRm 1.0-2: itemfit(person.parameter(RM(...))).
    [Fact]
    public void Infit_and_outfit_match_erm()
    {
        ConditionalCalibration fit = ConditionalRasch.Fit(MathExam.Whole, cancellation: TestContext.Current.CancellationToken);
        ImmutableArray<RaschItemFit> fits = RaschFitTest.Fit(fit.Items, MathExam.Whole);
        double[] infit = IrtReference.Values("mathexam", "erm-cml", "infit");
        double[] outfit = IrtReference.Values("mathexam", "erm-cml", "outfit");
        Assert.Equal(13, fits.Length);
        for (int j = 0; j < 13; j++)
        {
            Assert.Equal(infit[j], fits[j].Infit, 1e-3);
            Assert.Equal(outfit[j], fits[j].Outfit, 1e-3);
        }
    }

    [Fact]
    public void Model_choice_prefers_the_model_that_made_the_data()
    {
        ItemCurve[] equal = [.. Enumerable.Range(0, 10).Select(j => new ItemCurve(1, -1.5 + (0.3 * j), 0))];
        ItemCurve[] unequal = [.. equal.Select((c, j) => c with { Discrimination = j % 2 == 0 ? 0.5 : 1.8 })];
        ModelChoice rasch = Choose(SimulatedAnswers.Draw(equal, 1500, 1, 5));
        ModelChoice two = Choose(SimulatedAnswers.Draw(unequal, 1500, 1, 5));
        Assert.Equal(ItemModel.Rasch, rasch.Chosen.Model);
        Assert.Equal(ItemModel.TwoParameter, two.Chosen.Model);
        Assert.StartsWith("The Rasch model describes the answers clearly better", rasch.Words, StringComparison.Ordinal);
        Assert.StartsWith("The two-parameter model describes the answers clearly better", two.Words, StringComparison.Ordinal);

        static ModelChoice Choose(ResponseMatrix data)
            => ModelChoice.Among([MarginalEstimation.Fit(data, ItemModel.Rasch), MarginalEstimation.Fit(data, ItemModel.TwoParameter)]);
    }
}
