using System.Globalization;

using Homestretch.Files.Documents;

using Spectre.Console;

namespace Homestretch.Cli.Prose;

/// <summary>Says what scores on one test are worth on another.</summary>
internal static class EquateProse
{
    // As many rows as fit a screen.
    private const int MostRows = 24;

    public static void Write(IAnsiConsole console, EquateDocument equated)
    {
        console.Sentence(equated.Sentence);
        foreach (string note in equated.Notes)
        {
            console.Point(note);
        }

        console.Sentence(equated.AgainstExam is { } form
            ? $"For the column 'against exam' of the evidence: {form.Write}"
            : $"Nothing for the column 'against exam' of the evidence. {equated.AgainstExamRefusal}");

        EquatedScoreFields[] seen = [.. equated.Scores.SkipWhile(s => s.People == 0).Reverse().SkipWhile(s => s.People == 0).Reverse()];
        int step = (seen.Length + MostRows - 1) / MostRows;
        console.Heading($"{equated.From.Name} (of {equated.From.Items}) on {equated.To.Name} (of {equated.To.Items})");
        Table table = Tables.Table(">Score", ">Linear", ">Off by", ">Equipercentile", ">Off by");
        foreach (EquatedScoreFields row in seen.Where((_, i) => i % step == 0))
        {
            table.Row(
                row.Score.ToString(CultureInfo.InvariantCulture),
                Number(row.Linear.Value), Off(row.Linear),
                Number(row.Equipercentile.Value), Off(row.Equipercentile));
        }

        console.Write(table);
        console.Sentence(
            $"Means of those who took both: {Number(equated.From.Mean)} and {Number(equated.To.Mean)}; correlation {equated.Correlation.ToString("0.00", CultureInfo.InvariantCulture)}. "
            + "Linear: equally many standard deviations from the mean. Equipercentile: the same share of people below. Off by: standard error of the conversion, not of one person's score. docs/measurement.md has the formulas.");
    }

    private static string Off(EquivalentFields equivalent) => equivalent.StandardError is { } error ? Number(error) : "unknown";

    private static string Number(double value) => value.ToString("0.0", CultureInfo.InvariantCulture);
}
