namespace Homestretch.Core.Standing;

/// <summary>Standing on a part of a topic; only for subtopics that evidence names.</summary>
/// <param name="Name">The subtopic.</param>
/// <param name="Items">Scored items in the exam.</param>
/// <param name="EvidenceItems">Items answered on it so far.</param>
/// <param name="Level">What is known.</param>
/// <param name="HiddenHole">True where this part may well be weak (one chance in three or more) though its topic as a whole is not.</param>
public sealed record SubtopicStanding(string Name, int Items, int EvidenceItems, Level Level, bool HiddenHole);
