namespace Homestretch.Core.Standing;

/// <summary>How likely each level is; the three sum to 1.</summary>
public readonly record struct BandChances(double Weak, double Borderline, double Strong)
{
    /// <summary>The chance of one level.</summary>
    public double this[Band band] => band switch { Band.Weak => Weak, Band.Borderline => Borderline, _ => Strong };
}
