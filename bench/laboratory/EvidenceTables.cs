using System.Collections.Immutable;

using Homestretch.Core.Laboratory;
using Homestretch.Files.Documents;

namespace Homestretch.Laboratory;

/// <summary>Results as tables of a page.</summary>
internal static class EvidenceTables
{
    private const string Begin = "<!-- tables: begin -->";
    private const string End = "<!-- tables: end -->";

    /// <summary>Puts the tables between the page's two marks.</summary>
    public static void Replace(string page, string tables)
    {
        string text = File.ReadAllText(page);
        int from = text.IndexOf(Begin, StringComparison.Ordinal) + Begin.Length;
        int to = text.IndexOf(End, StringComparison.Ordinal);
        if (from < Begin.Length || to < from)
        {
            throw new InvalidOperationException($"{page} has no line '{Begin}' with a line '{End}' after it.");
        }

        File.WriteAllText(page, text[..from] + "\n" + tables + "\n" + text[to..]);
    }

    public static IEnumerable<string> Of(ImmutableArray<ScenarioResult> results)
    {
        LaboratoryPolicy[] policies = [.. results[0].Policies.Select(p => p.Policy)];
        yield return "**Of 100 candidates, how many passed** (standard errors are 0.2 to 0.4 with 20,000 candidates)";
        yield return "";
        yield return Row(["scenario", .. policies.Select(p => $"`{Words.Of(p)}`")]);
        yield return Row(["---", .. policies.Select(_ => "---:")]);
        foreach (ScenarioResult result in results)
        {
            yield return Row([$"`{result.Scenario.Name}`", .. result.Policies.Select(p => Percent(p.PassRate))]);
        }

        yield return "";
        yield return "**Differences on the same candidates**, in points, ± one standard error. *Best other*: the best of all policies a person could follow beside the optimised one.";
        yield return "*Closed*: how much of the distance from the practice order to the oracle the optimised plan covers.";
        yield return "";
        yield return Row(["scenario", "against practice order", "against practice by hand", "against best other", "oracle against practice order", "closed"]);
        yield return Row(["---", "---:", "---:", "---:", "---:", "---:"]);
        foreach (ScenarioResult result in results)
        {
            LaboratoryPolicy best = result.BestOther!.Value;
            yield return Row([
                $"`{result.Scenario.Name}`",
                Points(result.Difference(LaboratoryPolicy.Optimised, LaboratoryPolicy.PracticeOrder)),
                Points(result.Difference(LaboratoryPolicy.Optimised, LaboratoryPolicy.ByHand)),
                $"{Points(result.Difference(LaboratoryPolicy.Optimised, best))} (`{Words.Of(best)}`)",
                Points(result.Difference(LaboratoryPolicy.Oracle, LaboratoryPolicy.PracticeOrder)),
                result.ShareOfOracle is { } share ? $"{100 * share:F0} %" : "-",
            ]);
        }

        ScenarioResult[] weeks = [.. results.Where(r => r.Scenario.WeeksLeft)];
        yield return Row([
            $"mean of the {weeks.Length} with two to three weeks left",
            $"{Mean(weeks, LaboratoryPolicy.Optimised, LaboratoryPolicy.PracticeOrder):+0.0;-0.0}",
            $"{Mean(weeks, LaboratoryPolicy.Optimised, LaboratoryPolicy.ByHand):+0.0;-0.0}",
            "",
            $"{Mean(weeks, LaboratoryPolicy.Oracle, LaboratoryPolicy.PracticeOrder):+0.0;-0.0}",
            $"{100 * Mean(weeks, LaboratoryPolicy.Optimised, LaboratoryPolicy.PracticeOrder) / Mean(weeks, LaboratoryPolicy.Oracle, LaboratoryPolicy.PracticeOrder):F0} %",
        ]);

        yield return "";
        yield return "**Forecasts under the optimised plan against what happened.** *Error*: mean distance between forecast and share passed over tenths of the scale; in brackets what chance alone would give.";
        yield return "";
        yield return Row(["scenario", "passed", "forecast with the first plan", "error", "forecast on the eve", "error"]);
        yield return Row(["---", "---:", "---:", "---:", "---:", "---:"]);
        foreach (ScenarioResult result in results)
        {
            PolicyResult optimised = result.Of(LaboratoryPolicy.Optimised)!;
            yield return Row([
                $"`{result.Scenario.Name}`",
                Percent(optimised.PassRate),
                Percent(optimised.AtPlan.MeanForecast),
                Error(optimised.AtPlan),
                Percent(optimised.OnEve.MeanForecast),
                Error(optimised.OnEve),
            ]);
        }
    }

    private static double Mean(ScenarioResult[] results, LaboratoryPolicy policy, LaboratoryPolicy against)
        => 100 * results.Average(r => r.Difference(policy, against).Points);

    private static string Row(IEnumerable<string> cells) => $"| {string.Join(" | ", cells)} |";

    private static string Percent(double share) => $"{100 * share:F1}";

    private static string Points(PairedDifference difference) => $"{100 * difference.Points:+0.0;-0.0;0.0} ± {100 * difference.StandardError:F1}";

    private static string Error(ForecastCheck check) => $"{check.Error:F3} ({check.ErrorByChance:F3})";
}
