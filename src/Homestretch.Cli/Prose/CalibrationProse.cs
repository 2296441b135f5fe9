using System.Globalization;

using Homestretch.Core.Calibration;
using Homestretch.Files;
using Homestretch.Files.Pictures;

using Spectre.Console;

namespace Homestretch.Cli.Prose;

/// <summary>Says how well pass chances held.</summary>
internal static class CalibrationProse
{
    public static void Write(IAnsiConsole console, CalibrationReport report, string? picture)
    {
        console.Sentence(report.Findings[0]);
        console.Sentence($"{report.Exam.Name}: {report.Test}.");
        foreach (string finding in report.Findings.Skip(1))
        {
            console.Point(finding);
        }

        console.Heading("Pass chances and what became of them");
        Table table = Tables.Table("Pass chance", ">Mean", ">Passed", ">90 % interval", ">Forecasts", ">People");
        foreach (CalibrationBin bin in report.Table.Bins)
        {
            table.Row(
                string.Create(CultureInfo.InvariantCulture, $"{bin.From * 100:0} to {bin.To * 100:0} %"),
                Figures.Percent(bin.MeanForecast),
                Figures.Share(bin.Observed),
                Figures.PercentRange(bin.Interval.Low, bin.Interval.High),
                bin.Count.ToString(CultureInfo.InvariantCulture),
                bin.People.ToString(CultureInfo.InvariantCulture));
        }

        console.Write(table);
        console.Sentence(
            "Where forecasts hold, the share that passed is near the mean pass chance of its row; a row with few people says little. "
            + string.Create(CultureInfo.InvariantCulture, $"Mean distance {report.Table.CalibrationError:0.000}; log score {report.Table.LogScore:0.000}, of the share that passed {report.Table.BaseRateLogScore:0.000}. ")
            + "docs/measurement.md says how it is done.");
        if (picture is not null)
        {
            console.Sentence($"Written: {picture}");
        }
    }
}
