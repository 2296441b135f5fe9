namespace Homestretch.Core.Standing;

/// <summary>A point of a quadrature rule and its weight.</summary>
/// <param name="At">Where.</param>
/// <param name="Weight">How much it counts; a rule's weights sum to 1.</param>
internal readonly record struct Node(double At, double Weight);
