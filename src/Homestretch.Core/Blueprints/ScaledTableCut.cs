using System.Collections.Immutable;

namespace Homestretch.Core.Blueprints;

/// <summary>Pass mark on a reporting scale given by a published conversion table.</summary>
/// <param name="AtLeast">Scaled score needed.</param>
/// <param name="Table">Correct answers and the scaled score they earn, both ascending; a count between two rows earns the lower row's score.</param>
public sealed record ScaledTableCut(double AtLeast, ImmutableArray<ScaledScore> Table) : CutScore
{
    /// <inheritdoc/>
    public override int RequiredCorrect(int items)
    {
        foreach (ScaledScore row in Table)
        {
            if (row.Scaled >= AtLeast)
            {
                return Math.Min(row.Correct, items + 1);
            }
        }

        return items + 1;
    }
}
