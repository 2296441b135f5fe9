using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Tests.Measurement;

/// <summary>Known parameters come back, and their errors are as large as the standard errors say.</summary>
public class RecoveryTests
{
    private const int Replications = 60;

    private static readonly ItemCurve[] Truth = [.. Enumerable.Range(0, 12).Select(j => new ItemCurve(0.7 + (0.1 * (j % 7)), -1.5 + (0.27 * j), 0))];

    // z = (estimate - truth) / standard error. Over 60 replications of 12 items, with some dependence within a replication, the share inside 1.96 has a
    // standard deviation of about 1 %, and the root mean square of z about 3 %; the margins are four of those.
    [Theory]
    [InlineData(false, 0)]
    [InlineData(false, 0.3)]
    [InlineData(true, 0)]
    public void Two_parameter_intervals_cover_as_often_as_they_promise(bool crossProduct, double missing)
    {
        MarginalOptions options = MarginalOptions.Default with { MostPatternsForObservedInformation = crossProduct ? 0 : int.MaxValue };
        List<double> z = [];
        for (int seed = 1; seed <= Replications; seed++)
        {
            MarginalCalibration fit = MarginalEstimation.Fit(SimulatedAnswers.Draw(Truth, 1500, 1, seed, missing), ItemModel.TwoParameter, options, cancellation: TestContext.Current.CancellationToken);
            z.AddRange(fit.Items.Zip(Truth, (e, t) => (e.Curve.Discrimination - t.Discrimination) / e.Errors.Discrimination!.Value));
            z.AddRange(fit.Items.Zip(Truth, (e, t) => (e.Curve.Difficulty - t.Difficulty) / e.Errors.Difficulty!.Value));
        }

        Check(z);
    }

    [Fact]
    public void Rasch_intervals_cover_by_marginal_and_by_conditional_likelihood()
    {
        ItemCurve[] truth = [.. Truth.Select(t => t with { Discrimination = 1 })];
        double centre = truth.Average(t => t.Difficulty);
        List<double> marginal = [];
        List<double> spread = [];
        List<double> conditional = [];
        for (int seed = 1; seed <= Replications; seed++)
        {
            ResponseMatrix data = SimulatedAnswers.Draw(truth, 800, 1.3, seed, 0.2);
            MarginalCalibration fit = MarginalEstimation.Fit(data, ItemModel.Rasch, cancellation: TestContext.Current.CancellationToken);
            marginal.AddRange(fit.Items.Zip(truth, (e, t) => (e.Curve.Difficulty - t.Difficulty) / e.Errors.Difficulty!.Value));
            spread.Add((fit.AbilitySd - 1.3) / fit.AbilitySdError!.Value);
            conditional.AddRange(ConditionalRasch.Fit(data, cancellation: TestContext.Current.CancellationToken).Items
                .Zip(truth, (e, t) => (e.Curve.Difficulty - t.Difficulty + centre) / e.Errors.Difficulty!.Value));
        }

        Check(marginal);
        Check(conditional);
        Assert.InRange(Math.Abs(spread.Average()), 0, 4 / Math.Sqrt(Replications));
    }

    [Fact]
    public void Three_parameter_curves_come_back_where_people_are()
    {
        ItemCurve[] truth = [.. Truth.Select(t => t with { Guessing = 0.22, Discrimination = t.Discrimination + 0.4 })];
        MarginalCalibration fit = MarginalEstimation.Fit(SimulatedAnswers.Draw(truth, 8000, 1, 7), ItemModel.ThreeParameter, cancellation: TestContext.Current.CancellationToken);
        for (int j = 0; j < truth.Length; j++)
        {
            for (double theta = -2; theta <= 2; theta += 0.5)
            {
                Assert.Equal(truth[j].Chance(theta), fit.Items[j].Curve.Chance(theta), 0.05);
            }

            Assert.NotNull(fit.Items[j].Errors.Guessing);
            Assert.InRange(fit.Items[j].Curve.Guessing, 0.02, 0.45);
        }
    }

    private static void Check(List<double> z)
    {
        Assert.All(z, value => Assert.True(double.IsFinite(value)));
        Assert.InRange(z.Count(v => Math.Abs(v) < 1.96) / (double)z.Count, 0.91, 0.99);
        Assert.InRange(Math.Sqrt(z.Average(v => v * v)), 0.88, 1.12);
    }
}
