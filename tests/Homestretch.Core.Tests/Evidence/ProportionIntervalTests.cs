using Homestretch.Core.Evidence;

namespace Homestretch.Core.Tests.Evidence;

public class ProportionIntervalTests
{
    // Newcombe, "Two-sided confidence intervals for the single proportion: comparison of seven methods",
    // Statistics in Medicine 17 (1998), table I: 95 % intervals by method 3 (score) and method 5 (exact).
    [Theory]
    [InlineData(81, 263, 0.2553, 0.3662, 0.2527, 0.3676)]
    [InlineData(15, 148, 0.0624, 0.1605, 0.0578, 0.1617)]
    [InlineData(0, 20, 0.0000, 0.1611, 0.0000, 0.1684)]
    [InlineData(1, 29, 0.0061, 0.1718, 0.0009, 0.1776)]
    public void Matches_the_published_table(int successes, int trials, double scoreLow, double scoreHigh, double exactLow, double exactHigh)
    {
        ProportionInterval score = ProportionInterval.Wilson(successes, trials, 0.95);
        ProportionInterval exact = ProportionInterval.Exact(successes, trials, 0.95);
        Assert.Equal([scoreLow, scoreHigh, exactLow, exactHigh], [score.Low, score.High, exact.Low, exact.High], (a, b) => Math.Abs(a - b) <= 0.00005);
    }

    [Theory]
    [InlineData(-1, 5, 0.9)]
    [InlineData(6, 5, 0.9)]
    [InlineData(0, 0, 0.9)]
    [InlineData(1, 5, 1.0)]
    public void Refuses_what_is_no_proportion(int successes, int trials, double confidence)
        => Assert.Throws<ArgumentOutOfRangeException>(() => ProportionInterval.Wilson(successes, trials, confidence));

    [Fact]
    public void Observed_share_is_unknown_when_a_report_gives_a_band()
    {
        Assert.Null(ObservedShare.Of([new TopicCount("Cataloguing", null, 3, 5, 8)]));
        Assert.Equal(new ObservedShare(4, 9), ObservedShare.Of([TopicCount.Exact("Cataloguing", 3, 8), new ItemResponse("Cataloguing", null, "1", true, null, null)]));
    }
}
