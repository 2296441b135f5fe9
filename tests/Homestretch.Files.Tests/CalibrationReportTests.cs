using Homestretch.Core.Calibration;
using Homestretch.Files.Pictures;

namespace Homestretch.Files.Tests;

public class CalibrationReportTests
{
    [Fact]
    public void Few_people_are_summed_up_in_two_halves()
    {
        OutcomeStudyResult room = SampleCalibrations.Room.Outcomes!;
        int likely = room.People.Count(p => p.PassChance >= 0.5);
        int likelyPassed = room.People.Count(p => p.PassChance >= 0.5 && p.Passed);
        Assert.Equal(
            $"Of the {likely} people given 50 % or more, {likelyPassed} passed; of the {room.People.Length - likely} given less, {room.Passes - likelyPassed} passed.",
            SampleCalibrations.Room.Findings[0]);
        Assert.Equal("Everybody was given 50 % or more; of the 12 people, 12 passed.", SampleCalibrations.AllPassed.Findings[0]);
    }

    [Fact]
    public void Where_a_row_has_enough_people_it_is_the_example()
    {
        CalibrationReport report = SampleCalibrations.LearnedSplit;
        CalibrationBin row = report.Table.Bins.Where(b => b.From > 0.25 && b.To < 0.95 && b.People >= 10).MaxBy(b => b.Count);
        Assert.Equal($"Of the people given about {Figures.Percent(row.MeanForecast)} after one half of the test, {Figures.Share(row.Observed)} passed the other half.", report.Findings[0]);
    }

    [Fact]
    public void Too_few_and_too_many_passes_are_said()
    {
        Assert.Contains(SampleCalibrations.NonePassed.Findings, f => f.Contains("0 passed", StringComparison.Ordinal) && f.EndsWith("they were too high.", StringComparison.Ordinal));
        Assert.Contains(SampleCalibrations.Room.Findings, f => f.Contains("no more than chance gives", StringComparison.Ordinal));
    }

    [Fact]
    public void Who_was_left_out_and_other_lengths_are_said()
    {
        Assert.Contains("Left out: Person 3, whose report gives bands that allow both a pass and a fail; Person 7, without a result that counts as the outcome.", SampleCalibrations.Room.Findings);
        Assert.Contains(SampleCalibrations.Room.Findings, f => f.StartsWith("1 outcome had other numbers of items", StringComparison.Ordinal));
        Assert.Null(CalibrationReport.WhyLeftOut([]));
        Assert.Equal(
            "Left out: P0, P1, P2, P3, P4 and 2 more, whose result says nothing of 'Pests', so that nobody can say whether it passed.",
            CalibrationReport.WhyLeftOut([.. Enumerable.Range(0, 7).Select(i => new LeftOutPerson($"P{i}", LeftOutReason.Incomplete, "Pests"))]));
    }

    [Fact]
    public void A_split_says_what_its_forecasts_rest_on()
    {
        Assert.Contains("With fewer than 60 people nothing was learned from them: the forecasts rest on the program's usual assumptions.", SampleCalibrations.Split.Findings);
        Assert.Contains(SampleCalibrations.LearnedSplit.Findings, f => f.EndsWith("how hard the exam half is was not known.", StringComparison.Ordinal));
        Assert.Contains(SampleCalibrations.Split.Findings, f => f.Contains("5 random splits of 12 items, 20 people, 100 forecasts", StringComparison.Ordinal));
    }

    [Fact]
    public void Too_few_people_make_no_report()
        => Assert.Throws<ArgumentException>(() => CalibrationReport.Of(SampleCalibrations.Room.Exam, "exam", SampleCalibrations.Room.Outcomes! with { Table = null }));
}
