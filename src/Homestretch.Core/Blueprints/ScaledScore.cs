namespace Homestretch.Core.Blueprints;

/// <summary>One row of a score conversion table.</summary>
/// <param name="Correct">Correct answers.</param>
/// <param name="Scaled">The scaled score reported for them.</param>
public readonly record struct ScaledScore(int Correct, double Scaled);
