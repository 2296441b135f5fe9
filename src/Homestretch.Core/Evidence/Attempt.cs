using System.Collections.Immutable;

using NodaTime;

namespace Homestretch.Core.Evidence;

/// <summary>One sitting of one test by one person.</summary>
/// <param name="Candidate">The person.</param>
/// <param name="Name">The attempt's label.</param>
/// <param name="Kind">What kind of sitting it was.</param>
/// <param name="Date">The day it was taken.</param>
/// <param name="Observations">What was seen, in the order of the file.</param>
public sealed record Attempt(string Candidate, string Name, AttemptKind Kind, LocalDate Date, ImmutableArray<Observation> Observations)
{
    /// <summary>How much easier its test is than the real exam, where that was stated or learned; null where it was not.</summary>
    public FormDifference? Form { get; init; }
}
