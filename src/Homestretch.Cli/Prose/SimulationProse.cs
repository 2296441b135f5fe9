using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Laboratory;
using Homestretch.Files.Documents;

using Spectre.Console;

namespace Homestretch.Cli.Prose;

/// <summary>Says what became of simulated candidates.</summary>
internal static class SimulationProse
{
    public static void Write(IAnsiConsole console, ExperimentOptions options, ImmutableArray<ScenarioResult> results)
    {
        console.Sentence(string.Create(
            CultureInfo.InvariantCulture,
            $"{options.Candidates} simulated candidates per scenario, seed {options.Seed}: the same people, tests and luck under every policy. Nobody here is real; docs/evidence.md says what each scenario assumes."));
        foreach (ScenarioResult result in results)
        {
            Write(console, result);
        }

        console.WriteLine();
        console.Sentence(
            "Pass: of 100 candidates, how many passed, ± one standard error. Gain: passes more than under the practice order, on the same candidates. "
            + "Forecast: passes that the planner foretold with the first plan. Off: mean distance of forecasts from what happened, in points.");
    }

    private static void Write(IAnsiConsole console, ScenarioResult result)
    {
        console.Heading($"{result.Scenario.Title} ({result.Scenario.Name})");
        console.Sentence(result.Scenario.Differs);
        bool compared = result.Of(LaboratoryPolicy.PracticeOrder) is not null;
        string[] gain = compared ? [">Gain"] : [];
        Table table = Tables.Table(["=Policy", ">Pass", .. gain, ">Hours", ">Forecast", ">Off at plan", ">Off on eve"]);
        foreach (PolicyResult policy in result.Policies)
        {
            string[] against = compared ? [Against(result, policy.Policy)] : [];
            table.Row([
                Words.Of(policy.Policy),
                $"{Percent(policy.PassRate)} ± {Percent(policy.StandardError)}",
                .. against,
                policy.MeanHours.ToString("F1", CultureInfo.InvariantCulture),
                Percent(policy.AtPlan.MeanForecast),
                Percent(policy.AtPlan.Error),
                Percent(policy.OnEve.Error),
            ]);
        }

        console.Write(table);
        if (result.ShareOfOracle is { } share)
        {
            console.Sentence(string.Create(CultureInfo.InvariantCulture, $"Of the distance from the practice order to the oracle the optimised plan covers {100 * share:F0} %."));
        }
    }

    private static string Against(ScenarioResult result, LaboratoryPolicy policy)
    {
        if (policy == LaboratoryPolicy.PracticeOrder)
        {
            return "-";
        }

        PairedDifference difference = result.Difference(policy, LaboratoryPolicy.PracticeOrder);
        return string.Create(CultureInfo.InvariantCulture, $"{100 * difference.Points:+0.0;-0.0;0.0} ± {100 * difference.StandardError:F1}");
    }

    private static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{100 * share:F1}");
}
