namespace Homestretch.Core.Standing;

/// <summary>What is known of a chance of a correct answer.</summary>
/// <param name="Mean">Posterior mean, 0 to 1.</param>
/// <param name="Low">5 % point of the posterior: the lower end of the 90 % interval.</param>
/// <param name="High">95 % point.</param>
/// <param name="Band">The level the mean lies in.</param>
/// <param name="Chances">How likely each level is.</param>
public readonly record struct Level(double Mean, double Low, double High, Band Band, BandChances Chances)
{
    /// <summary>A band is settled when it is at least this likely.</summary>
    public const double SettledFrom = 0.7;

    /// <summary>Whether the band can be relied on.</summary>
    public bool Settled => Chances[Band] >= SettledFrom;
}
