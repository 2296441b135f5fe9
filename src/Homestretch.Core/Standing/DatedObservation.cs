using Homestretch.Core.Evidence;

using NodaTime;

namespace Homestretch.Core.Standing;

/// <summary>An observation with the day, kind and name of its attempt.</summary>
internal readonly record struct DatedObservation(LocalDate Date, AttemptKind Kind, string Test, Observation Observation)
{
    /// <summary>How much easier the test is than the exam, in logits; 0 where nothing is known of that.</summary>
    public double Ease { get; init; }
}
