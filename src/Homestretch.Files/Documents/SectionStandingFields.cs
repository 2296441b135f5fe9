using Homestretch.Core.Standing;

namespace Homestretch.Files.Documents;

/// <summary>Standing on a section: the expected share of its scored items answered correctly, 0 to 1.</summary>
/// <param name="Name">The section.</param>
/// <param name="EvidenceItems">Items answered on it so far.</param>
/// <param name="Mean">Expected share correct.</param>
/// <param name="Low">Lower end of the 90 % interval.</param>
/// <param name="High">Upper end.</param>
/// <param name="Band"><c>weak</c>, <c>borderline</c> or <c>strong</c>.</param>
/// <param name="BandChances">How likely each level is.</param>
public sealed record SectionStandingFields(
    string Name,
    int EvidenceItems,
    double Mean,
    double Low,
    double High,
    string Band,
    BandChancesFields BandChances)
{
    internal static SectionStandingFields Of(SectionStanding standing) => new(
        standing.Section.Name,
        standing.EvidenceItems,
        standing.Level.Mean,
        standing.Level.Low,
        standing.Level.High,
        Words.Of(standing.Level.Band),
        BandChancesFields.Of(standing.Level.Chances));
}
