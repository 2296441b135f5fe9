namespace Homestretch.Core.Planning.Sensitivity;

/// <summary>What one assumption does to a plan and its pass chance.</summary>
/// <param name="Range">The assumption.</param>
/// <param name="Low">What would hold at its lowest plausible value.</param>
/// <param name="High">At its highest.</param>
public sealed record AssumptionEffect(AssumptionRange Range, AssumedOutcome Low, AssumedOutcome High)
{
    /// <summary>The most that keeping the present plan would cost, as a difference of chances.</summary>
    public double Regret => Math.Max(Low.Regret, High.Regret);

    /// <summary>How far apart the present plan's pass chances are.</summary>
    public double Swing => Math.Abs(High.Kept - Low.Kept);
}
