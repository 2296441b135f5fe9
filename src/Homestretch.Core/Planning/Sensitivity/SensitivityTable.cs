using System.Collections.Immutable;

namespace Homestretch.Core.Planning.Sensitivity;

/// <summary>Which assumptions a plan and its pass chance hang on.</summary>
/// <param name="PassChance">Pass chance of the plan with the values in use.</param>
/// <param name="Effects">Those that matter most to the plan first, then those that matter most to the pass chance.</param>
public sealed record SensitivityTable(double PassChance, ImmutableArray<AssumptionEffect> Effects)
{
    /// <summary>A plan hangs on an assumption where being wrong about it costs this much pass chance at least (an assumption: half a point).</summary>
    public const double PlanMatters = 0.005;

    /// <summary>A pass chance hangs on an assumption where its range moves it by this much at least (an assumption: three points).</summary>
    public const double ChanceMatters = 0.03;

    /// <summary>Whether the plan would be another one, and better by enough to matter, were the assumption another.</summary>
    public static bool MattersToPlan(AssumptionEffect effect)
    {
        ArgumentNullException.ThrowIfNull(effect);
        return effect.Regret >= PlanMatters;
    }

    /// <summary>What the figures say, one sentence about the plan and one about the pass chance.</summary>
    public ImmutableArray<string> Sentences => [AboutPlan, AboutChance];

    private string AboutPlan
    {
        get
        {
            AssumptionEffect worst = Effects.MaxBy(e => e.Regret)!;
            AssumedOutcome then = worst.Low.Regret >= worst.High.Regret ? worst.Low : worst.High;
            string cost = PlanSentences.Points(then.Regret);
            return worst.Regret < PlanMatters
                ? $"The plan hangs on none of these assumptions: whichever is wrong within its range, keeping the plan costs at most {cost} of pass chance ({worst.Range.Words})."
                : $"The plan hangs on {Listed([.. Effects.Where(MattersToPlan)])}. The most there is to lose by keeping it is {cost} of pass chance, with {then.MovedMinutes} minutes that would go elsewhere; the other assumptions cost less than half a point each.";
        }
    }

    private string AboutChance
    {
        get
        {
            AssumptionEffect most = Effects.MaxBy(e => e.Swing)!;
            int matter = Effects.Count(e => e.Swing >= ChanceMatters);
            string range = $"{PlanSentences.Percent(Math.Min(most.Low.Kept, most.High.Kept))} to {PlanSentences.Percent(Math.Max(most.Low.Kept, most.High.Kept))}";
            return most.Swing < ChanceMatters
                ? $"The pass chance hardly moves with any of them: at most from {range} ({most.Range.Words})."
                : $"The pass chance hangs most on {most.Range.Words}: {range}. {(matter == 1 ? "None of the others moves" : $"{matter - 1} of the other {Effects.Length - 1} move")} it by three points or more.";
        }
    }

    private static string Listed(AssumptionEffect[] effects)
        => effects.Length == 1 ? effects[0].Range.Words : $"{effects.Length} assumptions: {string.Join("; ", effects.Select(e => e.Range.Words))}";
}
