using System.Collections.Immutable;

using Homestretch.Core.Standing;

namespace Homestretch.Core.Measurement;

/// <summary>Where a person stands, and what study of each topic is worth to them.</summary>
/// <param name="Standing">The standing.</param>
/// <param name="PassGains">Gain in pass chance from the same minutes on each topic, in the order of the exam's topics.</param>
public sealed record CandidateGains(CandidateStanding Standing, ImmutableArray<double> PassGains);
