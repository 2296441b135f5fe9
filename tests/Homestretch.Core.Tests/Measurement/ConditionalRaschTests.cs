using Homestretch.Core.Measurement;

namespace Homestretch.Core.Tests.Measurement;

public class ConditionalRaschTests
{
    [Theory]
    [InlineData("lsat6", "psychotools-cml")]
    [InlineData("mathexam", "psychotools-cml")]
    [InlineData("mathexam-design", "psychotools-cml")]
    [InlineData("mathexam", "erm-cml")]
    public void Difficulties_errors_and_likelihood_match_R(string data, string method)
    {
        ConditionalCalibration fit = ConditionalRasch.Fit(MathExam.Of(data), cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(IrtReference.LogLikelihood(data, method), fit.LogLikelihood, 1e-5);
        double[] difficulties = IrtReference.Values(data, method, "difficulty");
        double[] errors = IrtReference.Values(data, method, "difficulty-se");
        Assert.Equal(fit.Items.Length, difficulties.Length);
        for (int j = 0; j < difficulties.Length; j++)
        {
            Assert.Equal(difficulties[j], fit.Items[j].Curve.Difficulty, 1e-4);
            Assert.Equal(errors[j], fit.Items[j].Errors.Difficulty!.Value, 1e-4);
        }
    }
}
