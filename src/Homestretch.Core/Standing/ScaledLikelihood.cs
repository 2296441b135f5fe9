namespace Homestretch.Core.Standing;

/// <summary>A likelihood on the ability grid.</summary>
/// <param name="Values">At each grid point, up to a common factor.</param>
/// <param name="LogScale">Logarithm of that factor, but for a constant that is the same for every rate of learning.</param>
internal readonly record struct ScaledLikelihood(double[] Values, double LogScale);
