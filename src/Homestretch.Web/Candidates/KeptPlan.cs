using System.Collections.Immutable;

using Homestretch.Files.Documents;
using Homestretch.Store;

using NodaTime;

namespace Homestretch.Web.Candidates;

/// <summary>A plan as it was kept.</summary>
/// <param name="Id">Its number.</param>
/// <param name="At">When it was made.</param>
/// <param name="Why">Why, in one sentence.</param>
/// <param name="Document">What it says.</param>
/// <param name="Blocks">Its blocks in time order.</param>
public sealed record KeptPlan(long Id, Instant At, string Why, PlanDocument Document, ImmutableArray<KeptBlock> Blocks)
{
    /// <summary>The plan in a row of the store.</summary>
    public static KeptPlan Of(PlanVersion version)
    {
        ArgumentNullException.ThrowIfNull(version);
        PlanDocument document = DocumentJson.ReadPlan(version.Document);
        return new(version.Id, version.At, version.Why, document, [.. document.Blocks.Select(KeptBlock.Of)]);
    }

    /// <summary>The pass chance with this plan, 0 to 1.</summary>
    public double WithPlan => Document.PassChance;

    /// <summary>The pass chance without more study from then on, 0 to 1.</summary>
    public double WithoutStudy => Document.PassChanceWithoutStudy;
}
