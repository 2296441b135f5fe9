using Homestretch.Core.Standing;

namespace Homestretch.Core.AdaptiveTesting;

/// <summary>An item to give next, and what its answer would tell.</summary>
/// <param name="Item">The item.</param>
/// <param name="Reason">Why it was chosen.</param>
/// <param name="ChanceRight">Chance that the person answers it correctly, 0 to 1.</param>
/// <param name="PassIfRight">The pass chance after a correct answer to this item alone.</param>
/// <param name="PassIfWrong">The pass chance after a wrong answer to this item alone.</param>
/// <param name="Information">Expected squared change of the target's chance that this answer adds to those of the items before it in the list.</param>
public sealed record NextItem(BankItem Item, ItemReason Reason, double ChanceRight, double PassIfRight, double PassIfWrong, double Information)
{
    /// <summary>How far the answer to this item alone is expected to move the pass chance: the root of the mean squared move.</summary>
    public double PassMove => Math.Sqrt(ChanceRight * (1 - ChanceRight)) * Math.Abs(PassIfRight - PassIfWrong);
}
