namespace Homestretch.Core.Standing;

/// <summary>Nodes of a posterior that share a rate of learning.</summary>
/// <param name="Rate">The rate, in logits per first hour on an average topic; null where nothing is known of it, so that every rate of the assumptions goes with every node.</param>
/// <param name="First">Index of the first node.</param>
/// <param name="Count">How many nodes.</param>
public readonly record struct RateGroup(double? Rate, int First, int Count);
