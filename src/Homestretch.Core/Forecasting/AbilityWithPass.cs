namespace Homestretch.Core.Forecasting;

/// <summary>The joint posterior of one topic's ability and a pass, on a stretch of the ability grid.</summary>
/// <param name="Start">Index of the first grid point.</param>
/// <param name="Density">Weight of each ability; they sum to 1.</param>
/// <param name="Passing">Weight of each ability together with a pass; they sum to the pass chance.</param>
internal sealed record AbilityWithPass(int Start, double[] Density, double[] Passing);
