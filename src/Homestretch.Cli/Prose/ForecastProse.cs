using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Measurement;
using Homestretch.Core.Planning;
using Homestretch.Files;
using Homestretch.Files.Pictures;

using NodaTime.Text;

using Spectre.Console;

namespace Homestretch.Cli.Prose;

/// <summary>Says what to expect on the exam.</summary>
internal static class ForecastProse
{
    private const double LowTail = 0.05;
    private const double HighTail = 0.95;

    public static void Write(IAnsiConsole console, CandidateReport report)
    {
        Forecast forecast = report.Forecast;
        console.Sentence($"As things stand, {report.Candidate}'s pass chance is {Figures.Percent(forecast.PassChance)}: {Figures.OutOf(forecast.PassChance)} people in this position pass.");
        console.Sentence(
            $"{forecast.Exam.Name}, as of {LocalDatePattern.Iso.Format(report.Standing.AsOf)}: expected {Figures.Count(forecast.ExpectedCorrect)} of {forecast.Exam.ScoredItems} correct "
            + $"(90 % range {CountQuantile.Of(forecast.Distribution, LowTail)} to {CountQuantile.Of(forecast.Distribution, HighTail)}), {forecast.Cut} needed: {Margin(forecast.ExpectedMargin)}.");
        console.Study(report.Study, forecast.Exam);
        if (forecast.Sections.Length > 1)
        {
            console.WriteLine();
            Table sections = Tables.Table("Section", ">Items", ">Expected", ">90 % range", ">Needed", ">Pass chance");
            foreach (SectionForecast section in forecast.Sections)
            {
                sections.Row(
                    section.Section.Name,
                    Text(section.Section.ScoredItems),
                    Figures.Count(section.ExpectedCorrect),
                    $"{CountQuantile.Of(section.Distribution, LowTail)} to {CountQuantile.Of(section.Distribution, HighTail)}",
                    section.Cut is { } cut ? Text(cut) : "-",
                    section.PassChance is { } chance ? Figures.Percent(chance) : "-");
            }

            console.Write(sections);
        }

        foreach (string note in report.Standing.Taking.Notes)
        {
            console.Point(note);
        }

        if (PaceTable.Applies(forecast.Exam))
        {
            console.Heading("Pace on exam day");
            console.Sentence(PaceTable.Lead(report));
            Table clock = Tables.Table("Section", ">Item done", ">by minute", ">minutes left");
            foreach (Section section in forecast.Exam.Sections)
            {
                foreach (PaceMark mark in Pace.Marks(section))
                {
                    clock.Row(section.Name, Text(mark.Item), Text(mark.MinutesUsed), Text(mark.MinutesLeft));
                }
            }

            console.Write(clock);
        }

        console.Heading("Topics");
        int minutes = report.Worth.IsEmpty ? 0 : report.Worth[0].Minutes;
        Table topics = Tables.Table("Topic", ">Items", ">Expected", ">Needed", $">{minutes} min: items", ">pass chance");
        foreach ((TopicForecast topic, TopicWorth worth) in forecast.Topics.Zip(report.Worth))
        {
            topics.Row(
                topic.Topic.Name,
                Text(topic.Topic.Items),
                Figures.Count(topic.ExpectedCorrect),
                Text(topic.NeededCorrect),
                Figures.ItemGain(worth.ScoreGain),
                Figures.Points(worth.PassGain));
        }

        console.Write(topics);
        console.Sentence($"Needed: correct answers per topic that reach the cut score if every topic moves by the same hours of study. {minutes} min: what {minutes} minutes of study on the topic add.");
        console.Heading("Where the uncertainty comes from");
        console.Sentence($"{UncertaintyWords.Reach(forecast.Uncertainty)} {UncertaintyWords.Largest(forecast.Uncertainty)}");
        Table sources = Tables.Table("Source", ">Part");
        foreach ((string source, int percent) in UncertaintyWords.Sources.Zip(UncertaintyWords.Percent(forecast.Uncertainty)))
        {
            if (percent > 0)
            {
                sources.Row(source, $"{percent} %");
            }
        }

        console.Write(sources);
        console.Sentence(UncertaintyWords.Advice);
        console.WriteLine();
        console.Basis(report.Basis, report.Standing);
        console.Sentence("A forecast is not a promise: it rests on the evidence given and on the assumptions in docs/model.md.");
    }

    private static string Margin(double margin)
    {
        string items = Figures.Plural((int)Math.Round(Math.Abs(margin), MidpointRounding.AwayFromZero), "item");
        return margin < 0 ? $"{items} short" : $"{items} above";
    }

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);
}
