using System.Globalization;

using Homestretch.Core.Planning.Sensitivity;
using Homestretch.Files.Pictures;

using Spectre.Console;

namespace Homestretch.Cli.Prose;

/// <summary>Says which assumptions a plan hangs on.</summary>
internal static class AssumptionsProse
{
    public static void Write(IAnsiConsole console, PersonsTime person, SensitivityTable table)
    {
        foreach (string sentence in table.Sentences)
        {
            console.Sentence(sentence);
        }

        console.Sentence($"With the values in use, {person.Candidate}'s pass chance with the plan is {Figures.Percent(table.PassChance)}. One value is changed at a time.");
        console.Heading("What each assumption does");
        Table rows = Tables.Table("Assumption, lowest and highest value", ">This plan", ">Best plan then", ">Would move");
        foreach (AssumptionEffect effect in table.Effects)
        {
            string value = effect.Range.Value.ToString("0.###", CultureInfo.InvariantCulture);
            rows.Row($"{effect.Range.Name}: {effect.Range.Words} ({value} in use)\n{effect.Range.Source}", "", "", "");
            Row(rows, effect.Low);
            Row(rows, effect.High);
        }

        console.Write(rows);
        console.Basis(person.Basis, person.Standing);
        console.Sentence("A forecast is not a promise. The defaults and their sources are in docs/model.md.");
    }

    private static void Row(Table rows, AssumedOutcome outcome)
        => rows.Row(
            outcome.Value.ToString("  0.###", CultureInfo.InvariantCulture),
            Figures.Percent(outcome.Kept),
            Figures.Percent(outcome.Best),
            outcome.MovedMinutes == 0 ? "-" : Figures.Duration(outcome.MovedMinutes));
}
