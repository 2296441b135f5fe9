namespace Homestretch.Files.Documents;

/// <summary>Answers that say nothing of ability.</summary>
/// <param name="Rapid">Answers that came too fast for the item to have been read.</param>
/// <param name="RapidBelowSeconds">Seconds below which an answer was too fast; null where too few times are known.</param>
/// <param name="NotReached">Items left blank at the end of a test.</param>
public sealed record SetAsideFields(int Rapid, double? RapidBelowSeconds, int NotReached);
