using Homestretch.Files.Pictures;

namespace Homestretch.Web.Candidates;

/// <summary>What the latest plan changed, in sentences for the candidate.</summary>
public static class PlanDifference
{
    // More is not read.
    private const int MostNamed = 5;

    /// <summary>Why the plan was made, how the pass chance moved, and which blocks to come are new or gone.</summary>
    public static IEnumerable<string> Sentences(PersonalView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        if (view.Plan is not { } latest)
        {
            yield break;
        }

        yield return $"{Dates.Day(latest.At.InZone(view.Now.Zone).Date)}: {latest.Why}";
        if (view.Plans.Length == 1)
        {
            yield break;
        }

        KeptPlan before = view.Plans[^2];
        string then = Figures.Percent(before.WithPlan);
        string now = Figures.Percent(latest.WithPlan);
        yield return then == now ? $"The pass chance with the plan stays at {now}." : $"The pass chance with the plan went from {then} to {now}.";
        KeptBlock[] toCome = [.. before.Blocks.Where(b => b.Start.ToInstant() >= latest.At)];
        KeptBlock[] added = [.. latest.Blocks.Where(b => toCome.All(o => !Same(o, b)))];
        KeptBlock[] gone = [.. toCome.Where(o => latest.Blocks.All(b => !Same(o, b)))];
        yield return added.Length == 0 && gone.Length == 0
            ? "No block to come has changed."
            : $"{Figures.Plural(toCome.Length - gone.Length, "block")} to come {(toCome.Length - gone.Length == 1 ? "stays" : "stay")} as {(toCome.Length - gone.Length == 1 ? "it was" : "they were")}.";
        if (added.Length > 0)
        {
            yield return $"New: {Named(added)}.";
        }

        if (gone.Length > 0)
        {
            yield return $"No longer planned: {Named(gone)}.";
        }
    }

    private static bool Same(KeptBlock one, KeptBlock other)
        => one.Fields.Topic == other.Fields.Topic && one.Fields.Purpose == other.Fields.Purpose && one.Start.ToInstant() == other.Start.ToInstant();

    private static string Named(KeptBlock[] blocks)
        => string.Join("; ", blocks.Take(MostNamed).Select(b => $"{Dates.Day(b.Start.Date)} {b.Span} {b.Fields.Topic}")) + (blocks.Length > MostNamed ? $"; and {blocks.Length - MostNamed} more" : "");
}
