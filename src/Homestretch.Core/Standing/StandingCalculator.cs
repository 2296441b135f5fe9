using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;

using NodaTime;

namespace Homestretch.Core.Standing;

/// <summary>Computes a person's standing from evidence.</summary>
public static class StandingCalculator
{
    /// <summary>Beyond this many further items a band counts as not to be settled.</summary>
    public const int MostItemsToSettle = 60;

    /// <summary>The standing of one person on <paramref name="asOf"/>.</summary>
    public static CandidateStanding Calculate(Exam exam, ImmutableArray<Attempt> attempts, LocalDate asOf)
        => throw new NotSupportedException();
}
