using System.Globalization;
using System.Text.Json;

using Homestretch.Files.Documents;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Store;

/// <summary>The figures of a plan that lists and histories show, so that they need not read its document.</summary>
/// <param name="WithPlan">The pass chance with the plan, 0 to 1; null where the document cannot be read.</param>
/// <param name="WithoutStudy">The pass chance without more study, 0 to 1; null where the document cannot be read.</param>
/// <param name="FirstDay">The day of its first block; null where it has none.</param>
/// <param name="Minutes">Planned minutes day by day from <paramref name="FirstDay"/> on, with commas between; a day without any is empty.</param>
internal sealed record PlanSummary(double? WithPlan, double? WithoutStudy, LocalDate? FirstDay, string Minutes)
{
    /// <summary>Of a plan's document.</summary>
    public static PlanSummary Of(string document)
    {
        PlanDocument plan;
        (LocalDate Day, int Minutes)[] blocks;
        try
        {
            plan = DocumentJson.ReadPlan(document);
            if (plan.Blocks.IsDefault || plan.Policies is not { Optimised: not null, PracticeOrder: not null, None: not null })
            {
                return new(null, null, null, "");
            }

            blocks = [.. plan.Blocks.Select(b => (PlanDocument.Time(b.Start).Date, b.Minutes))];
        }
        catch (Exception e) when (e is JsonException or UnparsableValueException)
        {
            return new(null, null, null, "");
        }

        if (blocks.Length == 0)
        {
            return new(plan.PassChance, plan.PassChanceWithoutStudy, null, "");
        }

        LocalDate first = blocks.Min(b => b.Day);
        int[] minutes = new int[Period.DaysBetween(first, blocks.Max(b => b.Day)) + 1];
        foreach ((LocalDate day, int length) in blocks)
        {
            minutes[Period.DaysBetween(first, day)] += length;
        }

        return new(plan.PassChance, plan.PassChanceWithoutStudy, first, string.Join(',', minutes.Select(m => m == 0 ? "" : m.ToString(CultureInfo.InvariantCulture))));
    }

    /// <summary>The planned minutes of a day.</summary>
    public static int MinutesOn(LocalDate? firstDay, string[] minutes, LocalDate day)
    {
        int at = firstDay is { } first ? Period.DaysBetween(first, day) : -1;
        return at >= 0 && at < minutes.Length && minutes[at].Length > 0 ? int.Parse(minutes[at], NumberStyles.None, CultureInfo.InvariantCulture) : 0;
    }
}
