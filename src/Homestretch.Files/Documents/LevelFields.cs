namespace Homestretch.Files.Documents;

/// <summary>Where the person stood on a topic when the plan was made.</summary>
/// <param name="Topic">The topic.</param>
/// <param name="Section">Its section.</param>
/// <param name="Mean">Expected chance of a correct answer, 0 to 1.</param>
/// <param name="Band"><c>weak</c>, <c>borderline</c> or <c>strong</c>.</param>
public sealed record LevelFields(string Topic, string Section, double Mean, string Band);
