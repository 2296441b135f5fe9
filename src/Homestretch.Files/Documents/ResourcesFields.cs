using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Planning.Resources;

namespace Homestretch.Files.Documents;

/// <summary>What the catalogue of resources lacks for a plan.</summary>
/// <param name="WithoutTeaching">Topics that the plan works on and about which no material teaches.</param>
/// <param name="UsedUp">Topics whose material that teaches ends before the plan's blocks for learning do.</param>
/// <param name="Outdated">Titles of resources older than the blueprint.</param>
/// <param name="Notes">All this in sentences.</param>
public sealed record ResourcesFields(ImmutableArray<string> WithoutTeaching, ImmutableArray<string> UsedUp, ImmutableArray<string> Outdated, ImmutableArray<string> Notes)
{
    /// <summary>The fields of a plan's material.</summary>
    internal static ResourcesFields Of(PlanMaterial material, Exam exam) => new(
        [.. material.WithoutTeaching.Select(t => t.Name)],
        [.. material.UsedUp.Select(t => t.Name)],
        [.. material.Outdated.Select(r => r.Title)],
        material.Notes(exam));
}
