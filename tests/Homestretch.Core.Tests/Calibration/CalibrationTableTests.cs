using Homestretch.Core.Calibration;
using Homestretch.Core.Evidence;

namespace Homestretch.Core.Tests.Calibration;

public class CalibrationTableTests
{
    private static readonly double[] _forecasts = [0.03, 0.12, 0.18, 0.22, 0.35, 0.35, 0.41, 0.48, 0.52, 0.57, 0.63, 0.66, 0.71, 0.74, 0.78, 0.83, 0.88, 0.91, 0.95, 0.99];
    private static readonly int[] _passed = [0, 0, 1, 0, 0, 1, 0, 1, 0, 1, 1, 0, 1, 1, 0, 1, 1, 1, 1, 1];

    [Fact]
    public void Table_by_hand()
    {
        CalibrationTable table = Table([(0.15, false), (0.15, true), (0.75, true), (0.75, true), (1, true)]);
        Assert.Equal(0.8, table.BaseRate, 1e-12);
        Assert.Equal(0.56, table.MeanForecast, 1e-12);
        Assert.Equal([(2, 0.15, 0.5), (2, 0.75, 1.0), (1, 1.0, 1.0)], table.Bins.Select(b => (b.Count, b.MeanForecast, b.Observed)));
        Assert.Equal(((2 * 0.35) + (2 * 0.25)) / 5, table.CalibrationError, 1e-12);
        Assert.Equal(((0.15 * 0.15) + (0.85 * 0.85) + (2 * 0.25 * 0.25)) / 5, table.BrierScore, 1e-12);
        Assert.Equal(0.16, table.BaseRateBrierScore, 1e-12);
        Assert.Equal((Math.Log(0.85) + Math.Log(0.15) + (2 * Math.Log(0.75))) / 5, table.LogScore, 1e-12);
    }

    // R 4.2: mean((f - y)^2), mean(dbinom(y, 1, f, log = TRUE)), the same with mean(y) for f, and sum(abs(tapply(f - y, tenth, sum))) / 20.
    [Fact]
    public void Scores_as_in_R()
    {
        CalibrationTable table = Table([.. _forecasts.Zip(_passed, (f, y) => (f, y == 1))]);
        Assert.Equal(0.178075, table.BrierScore, 1e-12);
        Assert.Equal(-0.516411646605755, table.LogScore, 1e-12);
        Assert.Equal(-0.673011667009256, table.BaseRateLogScore, 1e-12);
        Assert.Equal(0.1205, table.CalibrationError, 1e-12);
        Assert.Equal(20, table.Bins.Sum(b => b.Count));
    }

    [Fact]
    public void A_certain_forecast_that_fails_costs_a_finite_log_score()
        => Assert.Equal(Math.Log(1e-6) / 2, Table([(1, false), (1, true)]).LogScore, 1e-12);

    // R: prop.test(7, 10, conf.level = 0.9, correct = FALSE), which is Wilson's interval.
    [Fact]
    public void Where_everybody_is_forecast_once_the_interval_is_Wilsons()
    {
        CalibrationBin bin = Table([.. Enumerable.Range(0, 10).Select(i => (0.72, i < 7))]).Bins.Single();
        Assert.Equal(10, bin.People);
        Assert.Equal(0.441699795869835, bin.Interval.Low, 1e-9);
        Assert.Equal(0.873123416096802, bin.Interval.High, 1e-9);
    }

    // R, sandwich 3: s (1 - s) / vcovCL(lm(y ~ 1), cluster = ~ person + split, type = "HC0", cadjust = FALSE).
    [Fact]
    public void People_and_splits_that_come_again_count_less_as_in_R()
    {
        int[] passed = [1, 1, 0, 0, 1, 0, 1, 1, 1, 0, 0, 0, 0, 1, 0];
        ForecastCase[] cases = [.. passed.Select((y, i) => new ForecastCase(0.5, y == 1, i / 3, i % 3))];
        double share = passed.Average();
        Assert.Equal(9.1304347826087, CalibrationBin.IndependentCases(cases, share), 1e-9);
        Assert.Equal(5, CalibrationTable.Of(cases).Bins.Single().People);
        Assert.True(CalibrationTable.Of(cases).Bins.Single().Interval.Low < ProportionInterval.Wilson(7, 15, 0.9).Low);
    }

    [Fact]
    public void Where_all_passed_each_person_counts_once()
        => Assert.Equal(4, CalibrationBin.IndependentCases([.. Enumerable.Range(0, 20).Select(i => new ForecastCase(0.9, true, i % 4, i / 4))], 1), 1e-12);

    [Fact]
    public void What_is_no_forecast_is_refused()
    {
        Assert.Throws<ArgumentException>(() => CalibrationTable.Of([]));
        Assert.Throws<ArgumentException>(() => Table([(double.NaN, true)]));
    }

    private static CalibrationTable Table((double Chance, bool Passed)[] cases)
        => CalibrationTable.Of([.. cases.Select((c, i) => new ForecastCase(c.Chance, c.Passed, i, i))]);
}
