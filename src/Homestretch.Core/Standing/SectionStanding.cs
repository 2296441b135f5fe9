using Homestretch.Core.Blueprints;

namespace Homestretch.Core.Standing;

/// <summary>Standing on a whole section: the expected share of its scored items answered correctly.</summary>
/// <param name="Section">The section.</param>
/// <param name="EvidenceItems">Items answered on it so far.</param>
/// <param name="Level">What is known of the expected share correct.</param>
public sealed record SectionStanding(Section Section, int EvidenceItems, Level Level);
