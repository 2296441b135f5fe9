using System.Collections.Immutable;

namespace Homestretch.Core.Measurement;

/// <summary>Answers given too fast to be meant.</summary>
/// <param name="Thresholds">Per item in the order of the test: an answer in fewer seconds is a rapid guess.</param>
/// <param name="Persons">In the order of the evidence.</param>
/// <param name="Summary">The finding as a sentence.</param>
public sealed record RapidGuessingReport(ImmutableArray<Statistic> Thresholds, ImmutableArray<PersonEffort> Persons, string Summary);
