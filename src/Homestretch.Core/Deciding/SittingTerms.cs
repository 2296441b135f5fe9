using NodaTime;

namespace Homestretch.Core.Deciding;

/// <summary>What sitting, moving and sitting again cost, as the exam owner publishes it; all optional, money in one currency.</summary>
public sealed record SittingTerms
{
    /// <summary>From this pass chance on a date is good enough to sit (an assumption of ours; the person may set another).</summary>
    public double Target { get; init; } = 0.8;

    /// <summary>Fee for moving the booked date.</summary>
    public decimal? PostponeFee { get; init; }

    /// <summary>Fee for sitting again after failing.</summary>
    public decimal? RetakeFee { get; init; }

    /// <summary>Last day on which the booked date can be moved.</summary>
    public LocalDate? PostponeUntil { get; init; }

    /// <summary>Last day on which the exam may be sat: an eligibility that ends, a blueprint that changes.</summary>
    public LocalDate? LastDate { get; init; }
}
