using Homestretch.Core.Planning.Replanning;
using Homestretch.Files.Plans;

using NodaTime;

namespace Homestretch.Files.Documents;

/// <summary>One difference between this plan and the earlier one.</summary>
/// <param name="Kind"><c>made-up</c>, <c>moved</c>, <c>replaced</c>, <c>dropped</c>, <c>added</c> or <c>repurposed</c>.</param>
/// <param name="Before">The block as the earlier plan had it; null where it had none.</param>
/// <param name="After">The block as it is now; null where there is none.</param>
/// <param name="CouldStay">Whether the block of the earlier plan could have stayed and does not.</param>
/// <param name="Gain">What the change adds to the pass chance; null where a block is only gone, where its time can no longer be used, or where only the purpose differs.</param>
/// <param name="Sentence">What changes and why.</param>
public sealed record BlockRevisionFields(string Kind, PlacedFields? Before, PlacedFields? After, bool CouldStay, double? Gain, string Sentence)
{
    internal static BlockRevisionFields Of(BlockRevision change, DateTimeZone zone) => new(
        Words.Of(change.Kind),
        change.Before is { } before ? PlacedFields.Of(before.Time.Start.InZone(zone), before.Time.End.InZone(zone), before.Topic, before.Purpose) : null,
        change.After is { } after ? PlacedFields.Of(after.Start, after.End, after.Topic.Name, after.Purpose) : null,
        change.CouldStay,
        change.Gain,
        RevisionSentences.Of(change, zone));
}
