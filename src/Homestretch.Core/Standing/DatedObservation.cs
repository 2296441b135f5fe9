using Homestretch.Core.Evidence;

using NodaTime;

namespace Homestretch.Core.Standing;

/// <summary>An observation with the day, kind and name of its attempt.</summary>
internal readonly record struct DatedObservation(LocalDate Date, AttemptKind Kind, string Test, Observation Observation);
