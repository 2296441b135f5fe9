namespace Homestretch.Core.Standing;

/// <summary>A node of the overall ability among fewer than a posterior has.</summary>
/// <param name="Index">Which of <see cref="AbilityPosterior.Nodes"/>.</param>
/// <param name="Weight">What it stands for; the weights of a group of nodes sum to the group's.</param>
internal readonly record struct AbilityNode(int Index, double Weight);
