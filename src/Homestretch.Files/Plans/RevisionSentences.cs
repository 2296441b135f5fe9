using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Replanning;
using Homestretch.Files.Documents;
using Homestretch.Files.Pictures;

using NodaTime;

namespace Homestretch.Files.Plans;

/// <summary>What has changed since an earlier plan, in sentences.</summary>
public static class RevisionSentences
{
    /// <summary>What stays, what is gained, and what it costs to change so little.</summary>
    public static ImmutableArray<string> Summary(StudyPlan plan, PlanRevision change)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(change);
        double passChance = plan.Outcome(plan.Chosen).PassChance;
        int done = change.Earlier.Count(b => b.Fate == BlockFate.Done);
        int madeUp = change.Changes.Count(c => c.Kind == RevisionKind.MadeUp);
        int missed = change.Changes.Count(c => c.Before?.Fate == BlockFate.Missed);
        List<string> sentences = [];
        if (done + missed > 0)
        {
            sentences.Add($"Of the earlier blocks whose time has passed, {done} {(done == 1 ? "was" : "were")} done and {missed} missed{(madeUp == 0 ? "" : $"; {madeUp} of those {(madeUp == 1 ? "is" : "are")} made up")}.");
        }

        int forced = change.Changes.Count(c => c.Before?.Fate == BlockFate.Planned && c.Kind != RevisionKind.Repurposed && !c.CouldStay);
        string[] parts =
        [
            Blocks(change.Kept, "stays where it was", "stay where they were"),
            .. change.Moved == 0 ? Array.Empty<string>() : [Blocks(change.Moved, "that could have stayed does not", "that could have stayed do not")],
            .. forced == 0 ? Array.Empty<string>() : [Blocks(forced, "cannot stay", "cannot stay")],
            .. change.Added == 0 ? Array.Empty<string>() : [Blocks(change.Added, "is new", "are new")],
            .. change.Dropped == 0 ? Array.Empty<string>() : [Blocks(change.Dropped, "is dropped", "are dropped")],
        ];
        sentences.Add(change.Changes.IsEmpty ? $"Nothing changes: {parts[0]}." : $"{string.Join(", ", parts)}.");
        sentences.Add(
            $"Pass chance: {Figures.Percent(change.KeptPassChance)} with nothing but the blocks that can stay, {Figures.Percent(passChance)} with this plan, {Figures.Percent(change.FreshPassChance)} with the best plan from scratch, "
            + $"which would move {Figures.Plural(change.FreshMoved, "block")}. A block that can stay is moved only where that adds {(change.MoveCost == 0 ? "anything" : string.Create(CultureInfo.InvariantCulture, $"{change.MoveCost * 100:0.###} {(change.MoveCost == 0.01 ? "point" : "points")} or more"))}.");
        return [.. sentences];
    }

    /// <summary>Every change with its reason; blocks that are dropped, or change their purpose, for one reason share a sentence.</summary>
    public static ImmutableArray<string> All(PlanRevision change, DateTimeZone zone)
    {
        ArgumentNullException.ThrowIfNull(change);
        return [.. change.Changes
            .GroupBy(c => c.Kind switch
            {
                RevisionKind.Repurposed => "purpose",
                RevisionKind.Dropped when c.Before!.Fate == BlockFate.Missed => "missed",
                RevisionKind.Dropped => c.Reason,
                _ => Of(c, zone),
            })
            .Select(g => g.Count() == 1 ? Of(g.First(), zone) : Together([.. g], zone))];
    }

    private static string Together(BlockRevision[] changes, DateTimeZone zone)
    {
        string Gone(BlockRevision c) => $"{c.Before!.Topic} ({Words.Of(c.Before.Purpose)}) on {Dates.Day(c.Before.Time.Start.InZone(zone).Date)}";
        return changes[0] switch
        {
            { Kind: RevisionKind.Repurposed } => $"For another purpose, since {changes[0].Reason}: {string.Join("; ", changes.Select(c => What(c, zone)))}.",
            { Before.Fate: BlockFate.Missed } => $"Missed and not made up, since the time left is worth more elsewhere: {string.Join("; ", changes.Select(Gone))}.",
            _ => $"Dropped, since {changes[0].Reason}: {string.Join("; ", changes.Select(Gone))}.",
        };
    }

    /// <summary>One change with its reason: "Tue 1 Dec 18:00 Cataloguing -> Title and ethics: ...".</summary>
    public static string Of(BlockRevision change, DateTimeZone zone)
    {
        ArgumentNullException.ThrowIfNull(change);
        string worth = change.Gain is > 0 and var gain && Figures.Points(gain) is var points && points != "no gain" ? $" ({points})" : "";
        return $"{What(change, zone)}: {change.Reason}{worth}.";
    }

    private static string What(BlockRevision change, DateTimeZone zone) => change.Kind switch
    {
        RevisionKind.MadeUp => $"{change.Before!.Topic} ({Words.Of(change.After!.Purpose)}) is made up on {When(change.After)}",
        RevisionKind.Moved when change.Before!.Time.Start == change.After!.Start.ToInstant() =>
            $"{change.Before.Topic} ({Words.Of(change.After.Purpose)}) on {When(change.After)} lasts {Figures.Duration(change.After.Minutes)}, not {Figures.Duration(change.Before.Minutes)}",
        RevisionKind.Moved => $"{change.Before!.Topic} ({Words.Of(change.After!.Purpose)}) moves from {When(change.Before, zone)} to {When(change.After)}",
        RevisionKind.Replaced => $"{When(change.After!)} {change.Before!.Topic} \u2192 {change.After!.Topic.Name} ({Words.Of(change.After.Purpose)})",
        RevisionKind.Dropped => $"{When(change.Before!, zone)} {change.Before!.Topic} ({Words.Of(change.Before.Purpose)}) is dropped",
        RevisionKind.Added => $"{When(change.After!)} {change.After!.Topic.Name} ({Words.Of(change.After.Purpose)}) is new",
        _ => $"{When(change.After!)} {change.After!.Topic.Name}: {Words.Of(change.Before!.Purpose)} \u2192 {Words.Of(change.After.Purpose)}",
    };

    private static string Blocks(int count, string one, string many) => $"{Figures.Plural(count, "block")} {(count == 1 ? one : many)}";

    private static string When(StudyBlock block) => When(block.Start);

    private static string When(EarlierBlock block, DateTimeZone zone) => When(block.Time.Start.InZone(zone));

    private static string When(ZonedDateTime start) => $"{Dates.Day(start.Date)} {Dates.Time(start.TimeOfDay)}";
}
