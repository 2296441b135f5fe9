using System.Collections.Immutable;

using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Replanning;
using Homestretch.Files.Plans;

namespace Homestretch.Files.Documents;

/// <summary>What this plan changes against an earlier one.</summary>
/// <param name="MoveCost">How much pass chance a block that could stay must gain to be moved, 0 to 1.</param>
/// <param name="Kept">Blocks that stay as they were.</param>
/// <param name="Moved">Blocks that could have stayed and did not.</param>
/// <param name="Added">Blocks that are new.</param>
/// <param name="Dropped">Blocks that were still to come and are not in this plan, under no other time either.</param>
/// <param name="PassChance">Pass chance of this plan.</param>
/// <param name="KeptPassChance">Pass chance of keeping what can be kept and using no other time.</param>
/// <param name="FreshPassChance">Pass chance of the best plan made from scratch.</param>
/// <param name="FreshMoved">Blocks that could have stayed and do not in that plan.</param>
/// <param name="Sentences">What stays, what it costs, in words.</param>
/// <param name="Blocks">Every difference, in time order.</param>
public sealed record RevisionFields(
    double MoveCost,
    int Kept,
    int Moved,
    int Added,
    int Dropped,
    double PassChance,
    double KeptPassChance,
    double FreshPassChance,
    int FreshMoved,
    ImmutableArray<string> Sentences,
    ImmutableArray<BlockRevisionFields> Blocks)
{
    internal static RevisionFields Of(StudyPlan plan, PlanRevision change) => new(
        change.MoveCost,
        change.Kept,
        change.Moved,
        change.Added,
        change.Dropped,
        plan.Outcome(plan.Chosen).PassChance,
        change.KeptPassChance,
        change.FreshPassChance,
        change.FreshMoved,
        RevisionSentences.Summary(plan, change),
        [.. change.Changes.Select(c => BlockRevisionFields.Of(c, plan.Zone))]);
}
