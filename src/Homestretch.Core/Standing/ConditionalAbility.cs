using System.Collections.Immutable;

namespace Homestretch.Core.Standing;

/// <summary>A density on a stretch of the ability grid.</summary>
/// <param name="Start">Index of the first grid point.</param>
/// <param name="Density">Weights at that point and the next ones; they sum to 1.</param>
public readonly record struct ConditionalAbility(int Start, ImmutableArray<double> Density);
