using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;
using Homestretch.Core.Tests.Reference;

namespace Homestretch.Core.Tests.Measurement;

/// <summary>The three-parameter model against OpenMx (without priors) and R's optim (with ours) on the same answers; Reference/three-parameter.R makes answers and figures.</summary>
public class ThreeParameterTests
{
    private static readonly MarginalOptions _withoutPriors = MarginalOptions.Default with { GuessingWeight = 0, SlopeSd = double.PositiveInfinity, InterceptSd = double.PositiveInfinity };

    [Fact]
    public void Without_priors_it_matches_openmx()
    {
        MarginalCalibration fit = MarginalEstimation.Fit(Answers(), ItemModel.ThreeParameter, _withoutPriors, cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(Figure("openmx", "loglik").Single(), fit.LogLikelihood, 1e-4);

        // OpenMx's nodes end at 6 and its steps at its own tolerance; the likelihood is flat along the asymptote of the easiest item.
        Same("openmx", fit, 0.01);
    }

    [Fact]
    public void With_the_documented_priors_it_matches_plain_optimisation_in_R()
    {
        MarginalCalibration fit = MarginalEstimation.Fit(Answers(), ItemModel.ThreeParameter, cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(Figure("optim-priors", "loglik").Single(), fit.LogLikelihood, 1e-3);
        Same("optim-priors", fit, 2e-3);
        Assert.All(
            Figure("optim-priors", "slope-se").Zip(fit.Items),
            pair => Assert.Equal(pair.First, pair.Second.Errors.Discrimination!.Value, 2e-3));
    }

    [Fact]
    public void Priors_pull_asymptotes_towards_one_in_four_and_cost_little_likelihood()
    {
        MarginalCalibration free = MarginalEstimation.Fit(Answers(), ItemModel.ThreeParameter, _withoutPriors, cancellation: TestContext.Current.CancellationToken);
        MarginalCalibration held = MarginalEstimation.Fit(Answers(), ItemModel.ThreeParameter, cancellation: TestContext.Current.CancellationToken);
        Assert.InRange(free.LogLikelihood - held.LogLikelihood, 0, 2);
        Assert.True(held.Items.Max(i => Math.Abs(i.Curve.Guessing - 0.25)) < free.Items.Max(i => Math.Abs(i.Curve.Guessing - 0.25)));
    }

    private static void Same(string method, MarginalCalibration fit, double tolerance)
    {
        double[] slopes = Figure(method, "slope");
        double[] intercepts = Figure(method, "intercept");
        double[] guesses = Figure(method, "guessing");
        for (int j = 0; j < slopes.Length; j++)
        {
            ItemCurve curve = fit.Items[j].Curve;
            Assert.Equal(slopes[j], curve.Discrimination, tolerance);
            Assert.Equal(intercepts[j], -curve.Discrimination * curve.Difficulty, tolerance);
            Assert.Equal(guesses[j], curve.Guessing, tolerance);
        }
    }

    private static double[] Figure(string method, string quantity)
        => [.. ReferenceTable.Rows("three-parameter.csv").Where(r => r[0] == method && r[1] == quantity).Select(r => ReferenceTable.Number(r[3]))];

    private static ResponseMatrix Answers()
    {
        string[][] rows = [.. ReferenceTable.Rows("three-parameter-answers.csv")];
        return ResponseMatrix.FromPatterns(
            [.. Enumerable.Range(1, 8).Select(i => $"i{i}")],
            rows.SelectMany(r => r[..8].Select(cell => cell == "1" ? Answer.Right : Answer.Wrong)).ToArray(),
            rows.Select(r => int.Parse(r[8], null)).ToArray());
    }
}
