using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Replanning;

using NodaTime;

namespace Homestretch.Web.Cases;

/// <summary>What tells one plan under a case's own figures from another.</summary>
/// <param name="From">The moment from which it is planned.</param>
/// <param name="Policy">The order of study.</param>
/// <param name="Earlier">The plan it goes on from; null where it is made from scratch.</param>
/// <param name="BusyTimes">How many busy times there are; they only ever become more, or the case has changed.</param>
public sealed record OwnPlan(ZonedDateTime From, Policy Policy, EarlierPlan? Earlier, int BusyTimes)
{
    /// <summary>Whether the other is the same plan. Earlier plans are told apart by reference, since they are read once and large.</summary>
    public bool IsSame(OwnPlan other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return From == other.From && Policy == other.Policy && ReferenceEquals(Earlier, other.Earlier) && BusyTimes == other.BusyTimes;
    }
}
