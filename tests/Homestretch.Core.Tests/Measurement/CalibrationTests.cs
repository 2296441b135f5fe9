using Homestretch.Calibration;
using Homestretch.Core.Measurement;

namespace Homestretch.Core.Tests.Measurement;

public class CalibrationTests
{
    [Fact]
    public void Table_by_hand()
    {
        CalibrationTable table = CalibrationTable.Of([(0.15, false), (0.15, true), (0.75, true), (0.75, true), (1, true)]);
        Assert.Equal(0.8, table.BaseRate, 1e-12);
        Assert.Equal([(2, 0.15, 0.5), (2, 0.75, 1.0), (1, 1.0, 1.0)], table.Bins.Select(b => (b.Count, b.MeanForecast, b.Observed)));
        Assert.Equal(((2 * 0.35) + (2 * 0.25)) / 5, table.CalibrationError, 1e-12);
        Assert.Equal(((0.15 * 0.15) + (0.85 * 0.85) + (2 * 0.25 * 0.25)) / 5, table.BrierScore, 1e-12);
        Assert.Equal(0.16, table.BaseRateBrierScore, 1e-12);
        Assert.Equal((Math.Log(0.85) + Math.Log(0.15) + (2 * Math.Log(0.75))) / 5, table.LogScore, 1e-12);
    }

    [Fact]
    public void What_is_no_forecast_is_refused()
    {
        Assert.Throws<ArgumentException>(() => CalibrationTable.Of([]));
        Assert.Throws<ArgumentException>(() => CalibrationTable.Of([(double.NaN, true)]));
    }

    // Real answers; with 200 splits and how they were made: docs/measurement.md. Fewer splits here, so the bounds are wider.
    [Theory]
    [InlineData("ability", 16, 0.87, 0.93, 0.045)]
    [InlineData("mathematics exam", 60, 0.86, 0.93, 0.08)]
    [InlineData("logical operations", 60, 0.88, 0.94, 0.05)]
    public void Forecasts_of_real_exams_hold(string name, int splits, double fewest, double most, double error)
    {
        SplitStudyResult result = SplitStudy.Run(RealData.Named(name), splits, [50, 60, 70], 1, cancellation: TestContext.Current.CancellationToken);
        Assert.InRange(result.Coverage, fewest, most);
        Assert.Equal(1, result.Pit.Sum(), 1e-9);
        foreach (SplitStudyCut cut in result.Cuts)
        {
            Assert.InRange(cut.Forecast.CalibrationError, 0, error);
            Assert.True(cut.Forecast.CalibrationError < cut.RawShare.CalibrationError);
            Assert.True(cut.Forecast.BrierScore < cut.Forecast.BaseRateBrierScore);
            Assert.True(cut.Forecast.BrierScore < cut.RawShare.BrierScore + 0.001);
            Assert.True(cut.Forecast.LogScore > cut.Forecast.BaseRateLogScore);
        }
    }

    [Fact]
    public void The_same_seed_gives_the_same_study()
    {
        SplitStudyResult first = SplitStudy.Run(RealData.Named("logical operations"), 3, [60], 9, cancellation: TestContext.Current.CancellationToken);
        SplitStudyResult second = SplitStudy.Run(RealData.Named("logical operations"), 3, [60], 9, cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(first.Coverage, second.Coverage);
        Assert.Equal(first.Cuts[0].Forecast.BrierScore, second.Cuts[0].Forecast.BrierScore);
    }
}
