using Homestretch.Core.Measurement;

namespace Homestretch.Core.Tests.Measurement;

/// <summary>Pass and fail decisions against figures that others have printed.</summary>
/// <remarks>The scores of 151,050 people on 40 items are the data set "act 288m" of the manual of BB-CLASS (Brennan, CASMA Research Report 9, 2004); the figures beside them were printed by
/// BBClassify 1.0.0 (Haakstad 2025, MIT licence; repository BBClassify_Python, files dist/act288m, dist/ccHB_output.txt and dist/ccLL_act_output.txt), which corrects BB-CLASS: the effective length
/// goes by possible, not by observed extremes.</remarks>
public class PublishedClassificationTests
{
    // Frequencies of 0 to 40 correct answers.
    private static readonly int[] _frequencies =
    [
        0, 23, 98, 384, 986, 2161, 3722, 5623, 7533, 8817, 9597, 9809, 9674, 8971, 8033, 7384, 6758, 6004, 5463, 4896, 4367,
        4083, 3651, 3333, 3191, 2899, 2644, 2597, 2287, 2197, 1967, 1874, 1710, 1581, 1503, 1349, 1181, 994, 827, 585, 294,
    ];

    // "Beta true-score distribution: Alpha 0.52378, Beta 1.62569, l 0.22317, u 1"; fitted to three moments.
    private static readonly TrueScoreBeta _truth = new(0.52378, 1.62569, 0.22317, 1);

    // Printed to five decimals, from parameters with five decimals.
    private const double AsPrinted = 3e-5;

    [Fact]
    public void Effective_length_is_as_printed()
    {
        Assert.Equal(151_050, _frequencies.Sum());
        double mean = _frequencies.Select((n, x) => (double)n * x).Sum() / 151_050;
        double variance = _frequencies.Select((n, x) => n * (x - mean) * (x - mean)).Sum() / 151_049;
        Assert.Equal(16.4987, mean, 5e-5);
        Assert.Equal(64.7823, variance, 5e-4);
        Assert.Equal(40, Classification.EffectiveItems(mean, variance, 40, 0.873));
        Assert.Equal(0.87217, Reliability.Kr21(40, mean, variance).Value!.Value, 5e-6);
    }

    [Theory]
    [InlineData(24, 0.94427, 0.01778, 0.03795, 0.92203, 0.75612)]
    public void Accuracy_consistency_and_kappa_are_as_printed(int cut, double accuracy, double oneError, double otherError, double consistency, double kappa)
    {
        Classification.Agreement found = Classification.Agree(_truth, 40, cut / 40.0);
        Assert.Equal(accuracy, found.TruePass + found.TrueFail, AsPrinted);
        Assert.Equal(new[] { oneError, otherError }, new[] { found.FalsePass, found.FalseFail }.Order(), (a, b) => Math.Abs(a - b) < AsPrinted);
        Assert.Equal(consistency, found.BothSame, AsPrinted);
        double pass = found.TruePass + found.FalsePass;
        double chance = (pass * pass) + ((1 - pass) * (1 - pass));
        Assert.Equal(kappa, (found.BothSame - chance) / (1 - chance), 1e-4);
    }

    // The same program's run with marks at 22, 24 and 26: accuracy of each mark from its table of categories.
    [Theory]
    [InlineData(22, 0.93505)]
    [InlineData(26, 0.95260)]
    public void Accuracy_at_other_marks_is_as_printed(int cut, double accuracy)
    {
        Classification.Agreement found = Classification.Agree(_truth, 40, cut / 40.0);
        Assert.Equal(accuracy, found.TruePass + found.TrueFail, AsPrinted);
    }

    // "Impermissible location parameter estimates": no four-parameter distribution within 0 to 1 has these moments.
    [Fact]
    public void Four_parameters_are_refused_where_they_were_refused_there()
        => Assert.Null(TrueScoreBeta.FourParameters(0.41247, 0.03531, 1.02143, 3.15830));

    // Worked by hand: true shares even between 0 and 1 (alpha = beta = 1, formula 21 = n / (n + 2)). One item: 1 - 2 E[p (1 - p)] = 2/3.
    // Two items, one needed: fail with chance (1 - p)^2, so both fail 1/5, both pass 1 - 2/3 + 1/5 = 8/15; chance agreement 1/9 + 4/9.
    [Theory]
    [InlineData(1, 1, 2.0 / 3, 1.0 / 3)]
    [InlineData(2, 1, 11.0 / 15, 2.0 / 5)]
    public void Huynhs_coefficients_for_even_true_shares(int items, int cut, double consistency, double kappa)
    {
        (Statistic same, Statistic beyond) = Classification.Huynh(items, cut, Statistic.Of(items / (items + 2.0)), items / 2.0);
        Assert.Equal(consistency, same.Value!.Value, 1e-12);
        Assert.Equal(kappa, beyond.Value!.Value, 1e-12);
    }
}
