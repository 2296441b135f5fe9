using Homestretch.Core.Measurement;

namespace Homestretch.Core.Tests.Measurement;

public class ReliabilityTests
{
    [Theory]
    [InlineData(0.6, 2, 0.75)]
    [InlineData(0.5, 2, 0.6666666666666666)]
    [InlineData(0.8, 0.5, 0.6666666666666666)]
    public void Spearman_Brown_by_hand(double reliability, double factor, double expected)
        => Assert.Equal(expected, Reliability.SpearmanBrown(reliability, factor), 1e-12);

    [Fact]
    public void Formula_21_by_hand()
        => Assert.Equal(50.0 / 49 * (1 - (40 * 10.0 / (50 * 36))), Reliability.Kr21(50, 40, 36).Value!.Value, 1e-12);

    [Fact]
    public void Binomial_errors_by_hand_and_on_average_the_standard_error_after_Keats()
    {
        ItemScores scores = Answers.MathExam();
        ReliabilityReport report = Reliability.Of(scores);

        // Lord (1955): the root of x (k - x) / (k - 1).
        Assert.Equal(Math.Sqrt(4 * 9 / 12.0), report.Errors[4].Lord, 1e-12);
        Assert.Equal(0, report.Errors[0].Lord);
        Assert.Equal(0, report.Errors[13].Lord);

        // Keats's (1957) factor makes the mean error variance that of the reliability; n against n - 1 in the variance is all that is left.
        double mean = scores.Persons.Average(p => Math.Pow(report.Errors[p.Correct].Keats.Value!.Value, 2));
        double n = scores.Persons.Length;
        Assert.Equal(Math.Pow(report.StandardError.Value!.Value, 2) * (n - 1) / n, mean, 1e-9);
    }

    [Fact]
    public void With_equally_hard_items_Livingston_and_Lewis_is_Huynh()
    {
        // With formula 21 as reliability and the variance divided by n, the effective test is the test itself and both use the same beta-binomial.
        (Statistic consistency, Statistic kappa) = Classification.Huynh(20, 12, Statistic.Of(0.7), 11);
        double sum = ((1 / 0.7) - 1) * 20;
        TrueScoreBeta truth = new(sum * 11 / 20, sum * 9 / 20, 0, 1);
        Classification.Agreement agreement = Classification.Agree(truth, 20, 12 / 20.0);
        Assert.Equal(consistency.Value!.Value, agreement.BothSame, 1e-9);
        Assert.InRange(kappa.Value!.Value, 0, consistency.Value.Value);
    }

    [Fact]
    public void Four_parameters_come_back_from_their_own_moments()
    {
        // Moments of a beta (2, 3) stretched over 0.2 to 0.9, by the textbook formulas.
        const double a = 2, b = 3, low = 0.2, range = 0.7;
        double mean = low + (range * a / (a + b));
        double variance = range * range * a * b / ((a + b) * (a + b) * (a + b + 1));
        double skewness = 2 * (b - a) * Math.Sqrt(a + b + 1) / ((a + b + 2) * Math.Sqrt(a * b));
        double kurtosis = 3 + (6 * (((a - b) * (a - b) * (a + b + 1)) - (a * b * (a + b + 2))) / (a * b * (a + b + 2) * (a + b + 3)));
        TrueScoreBeta fit = TrueScoreBeta.FourParameters(mean, variance, skewness, kurtosis)!.Value;
        Assert.Equal(a, fit.Alpha, 1e-9);
        Assert.Equal(b, fit.Beta, 1e-9);
        Assert.Equal(low, fit.Low, 1e-9);
        Assert.Equal(low + range, fit.High, 1e-9);
    }
}
