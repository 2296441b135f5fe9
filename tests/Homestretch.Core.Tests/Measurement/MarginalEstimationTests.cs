using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Tests.Measurement;

public class MarginalEstimationTests
{
    [Fact]
    public void Lsat6_is_read_whole()
    {
        Assert.Equal(1000, Lsat6.Data.Persons);

        // Counts right as published: 924, 709, 553, 763, 870 (Bock & Lieberman 1970, as printed by R's mirt::itemstats).
        int[] right = [.. Enumerable.Range(0, 5).Select(j => Enumerable.Range(0, 1000).Count(p => Lsat6.Data[p, j] == Answer.Right))];
        Assert.Equal([924, 709, 553, 763, 870], right);
    }

    // Published: ltm's rasch(LSAT), 21 Gauss-Hermite nodes (Rizopoulos, J. Stat. Software 17(5), 2006, pp. 10-11). ltm gives difficulties
    // in units of ability's standard deviation, and standard errors likewise.
    [Fact]
    public void Rasch_model_of_lsat6_is_as_published()
    {
        MarginalCalibration fit = MarginalEstimation.Fit(Lsat6.Data, ItemModel.Rasch, cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(-2466.938, fit.LogLikelihood, 1e-3);
        Assert.Equal(4945.875, fit.Aic, 2e-3);
        Assert.Equal(4975.322, fit.Bic, 2e-3);
        Assert.Equal(0.7551, fit.AbilitySd, 1e-4);
        Assert.Equal(0.0694, fit.AbilitySdError!.Value, 1e-4);
        double[] published = [-3.6153, -1.3224, -0.3176, -1.7301, -2.7802];
        Assert.All(published.Zip(fit.Items), pair => Assert.Equal(pair.First, pair.Second.Curve.Difficulty / fit.AbilitySd, 1e-3));
        Assert.True(fit.Convergence.Converged);
    }

    // Published: ltm's ltm(LSAT ~ z1), same source and nodes.
    [Fact]
    public void Two_parameter_model_of_lsat6_is_as_published()
    {
        MarginalCalibration fit = MarginalEstimation.Fit(Lsat6.Data, ItemModel.TwoParameter, cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(-2466.653, fit.LogLikelihood, 1e-3);
        Assert.Equal(4953.307, fit.Aic, 2e-3);
        Assert.Equal(5002.384, fit.Bic, 2e-3);
        double[] slopes = [0.8254, 0.7229, 0.8905, 0.6886, 0.6575];
        double[] difficulties = [-3.3597, -1.3696, -0.2799, -1.8659, -3.1236];
        double[] slopeErrors = [0.2581, 0.1867, 0.2326, 0.1852, 0.2100];
        double[] difficultyErrors = [0.8669, 0.3073, 0.0997, 0.4341, 0.8700];
        for (int j = 0; j < 5; j++)
        {
            Assert.Equal(slopes[j], fit.Items[j].Curve.Discrimination, 2e-3);
            Assert.Equal(difficulties[j], fit.Items[j].Curve.Difficulty, 5e-3);
            Assert.Equal(slopeErrors[j], fit.Items[j].Errors.Discrimination!.Value, 2e-3);
            Assert.Equal(difficultyErrors[j], fit.Items[j].Errors.Difficulty!.Value, 5e-3);
        }
    }

    // OpenMx 2.21.1: Bock and Aitkin's expectation with 101 nodes. Its shared slope is ability's standard deviation, its intercept minus our difficulty.
    [Theory]
    [InlineData("lsat6")]
    [InlineData("mathexam")]
    [InlineData("mathexam-design")]
    public void Rasch_model_matches_openmx(string data)
    {
        MarginalCalibration fit = MarginalEstimation.Fit(MathExam.Of(data), ItemModel.Rasch, cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(IrtReference.LogLikelihood(data, "openmx-rasch"), fit.LogLikelihood, 1e-4);
        double[] slopes = IrtReference.Values(data, "openmx-rasch", "slope");
        double[] intercepts = IrtReference.Values(data, "openmx-rasch", "intercept");
        Assert.Equal(slopes[0], fit.AbilitySd, 1e-3);
        Assert.All(intercepts.Zip(fit.Items), pair => Assert.Equal(pair.First, -pair.Second.Curve.Difficulty, 1e-3));
    }

    [Theory]
    [InlineData("lsat6")]
    [InlineData("mathexam")]
    [InlineData("mathexam-design")]
    public void Two_parameter_model_matches_openmx(string data)
    {
        MarginalCalibration fit = MarginalEstimation.Fit(MathExam.Of(data), ItemModel.TwoParameter, cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(IrtReference.LogLikelihood(data, "openmx-two"), fit.LogLikelihood, 1e-4);
        double[] slopes = IrtReference.Values(data, "openmx-two", "slope");
        double[] intercepts = IrtReference.Values(data, "openmx-two", "intercept");
        for (int j = 0; j < slopes.Length; j++)
        {
            Assert.Equal(slopes[j], fit.Items[j].Curve.Discrimination, 2e-3);
            Assert.Equal(intercepts[j], -fit.Items[j].Curve.Discrimination * fit.Items[j].Curve.Difficulty, 2e-3);
        }
    }
}
