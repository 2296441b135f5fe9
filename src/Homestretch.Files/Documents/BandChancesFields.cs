using Homestretch.Core.Standing;

namespace Homestretch.Files.Documents;

/// <summary>How likely each level is; the three sum to 1.</summary>
/// <param name="Weak">Chance that the level is weak, 0 to 1.</param>
/// <param name="Borderline">Chance that it is borderline, 0 to 1.</param>
/// <param name="Strong">Chance that it is strong, 0 to 1.</param>
public sealed record BandChancesFields(double Weak, double Borderline, double Strong)
{
    internal static BandChancesFields Of(BandChances chances) => new(chances.Weak, chances.Borderline, chances.Strong);
}
