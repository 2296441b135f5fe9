using Homestretch.Core.Standing;

namespace Homestretch.Files.Documents;

/// <summary>Standing on a part of a topic. Chances of a correct answer are 0 to 1.</summary>
/// <param name="Name">The subtopic.</param>
/// <param name="Items">Scored items in the exam.</param>
/// <param name="EvidenceItems">Items answered on it so far.</param>
/// <param name="Mean">Expected chance of a correct answer.</param>
/// <param name="Low">Lower end of the 90 % interval.</param>
/// <param name="High">Upper end.</param>
/// <param name="Band"><c>weak</c>, <c>borderline</c> or <c>strong</c>.</param>
/// <param name="BandChances">How likely each level is.</param>
/// <param name="Settled">Whether the level can be relied on.</param>
/// <param name="HiddenHole">True where this part is likely weak though its topic as a whole is not.</param>
public sealed record SubtopicStandingFields(
    string Name,
    int Items,
    int EvidenceItems,
    double Mean,
    double Low,
    double High,
    string Band,
    BandChancesFields BandChances,
    bool Settled,
    bool HiddenHole)
{
    internal static SubtopicStandingFields Of(SubtopicStanding standing) => new(
        standing.Name,
        standing.Items,
        standing.EvidenceItems,
        standing.Level.Mean,
        standing.Level.Low,
        standing.Level.High,
        Words.Of(standing.Level.Band),
        BandChancesFields.Of(standing.Level.Chances),
        standing.Level.Settled,
        standing.HiddenHole);
}
