namespace Homestretch.Core.AdaptiveTesting;

/// <summary>Whether a person's level on one topic is one of the three, as a random variable under the posterior.</summary>
/// <param name="Topic">Index of the topic.</param>
/// <param name="Part">At each point of the topic's stretch of the grid, the share of its cell that lies in the band.</param>
/// <param name="ByNode">Chance of the band at each node of the overall ability.</param>
/// <param name="Chance">Chance of the band.</param>
internal sealed record BandIndicator(int Topic, double[] Part, double[] ByNode, double Chance);
