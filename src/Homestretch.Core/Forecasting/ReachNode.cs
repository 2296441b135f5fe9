namespace Homestretch.Core.Forecasting;

/// <summary>How far a person gets on exam day, in one of a few cases.</summary>
/// <param name="Shares">Per section, the share of its items reached in time, 0 to 1.</param>
/// <param name="Weight">How likely the case is.</param>
internal sealed record ReachNode(double[] Shares, double Weight);
