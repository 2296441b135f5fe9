namespace Homestretch.Core.Planning.Optimising;

/// <summary>How far a <see cref="PlanSearch"/> goes.</summary>
/// <param name="LeastGain">A move must gain this much pass chance.</param>
/// <param name="LeastPromise">A move must look this good from the slopes, less what <paramref name="Patience"/> allows, to be tried.</param>
/// <param name="Patience">Part of what a move shifts between topics that the slopes may be wrong by.</param>
/// <param name="Sweeps">Sweeps over all moves at most.</param>
/// <param name="LooksBack">Whether what a block more or less leaves on a topic is worked out once a sweep only.</param>
internal sealed record SearchDetail(double LeastGain, double LeastPromise, double Patience, int Sweeps, bool LooksBack)
{
    /// <summary>For one person's plan.</summary>
    public static SearchDetail Thorough { get; } = new(1e-6, 0, 0.02, 30, false);

    /// <summary>For plans of thousands of simulated people: within about a tenth of a point of a thorough one.</summary>
    public static SearchDetail Brief { get; } = new(2e-4, 2e-4, 0, 1, true);
}
