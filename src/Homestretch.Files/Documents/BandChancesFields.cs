using Homestretch.Core.Standing;

namespace Homestretch.Files.Documents;

/// <summary>How likely each level is; the three sum to 1.</summary>
public sealed record BandChancesFields(double Weak, double Borderline, double Strong)
{
    internal static BandChancesFields Of(BandChances chances) => new(chances.Weak, chances.Borderline, chances.Strong);
}
