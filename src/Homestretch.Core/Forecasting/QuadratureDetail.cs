namespace Homestretch.Core.Forecasting;

/// <summary>How finely a <see cref="ScoreModel"/> integrates.</summary>
/// <param name="AbilitySpacing">Distance between nodes of the overall ability, in posterior standard deviations.</param>
/// <param name="NegligibleAbility">Nodes lighter than this share of the heaviest are left out.</param>
/// <param name="FormNodes">Nodes for the difficulty of the form.</param>
/// <param name="RateNodes">Nodes for the learning rate.</param>
/// <param name="ReachParts">Parts, of two nodes each, for how far a person gets in time; 0 for the expected share alone. They count only where time may run short.</param>
public sealed record QuadratureDetail(double AbilitySpacing, double NegligibleAbility, int FormNodes, int RateNodes, int ReachParts)
{
    /// <summary>For figures that are shown: pass chances are good to about 1e-5, after study to 1e-4, where time may run short to 1e-3.</summary>
    public static QuadratureDetail Full { get; } = new(1, 1e-6, 5, 5, 1);

    /// <summary>For comparing thousands of plans: pass chances are good to about a fifth of a point, or two points where time may run short.</summary>
    public static QuadratureDetail Coarse { get; } = new(1.3, 1e-2, 2, 2, 0);
}
