namespace Homestretch.Core.Planning.Wishes;

/// <summary>A topic that gets at least so many minutes.</summary>
/// <param name="Topic">The topic's name.</param>
/// <param name="Minutes">In blocks to come, reviews included; above 0.</param>
public readonly record struct MinutesWish(string Topic, int Minutes);
