namespace Homestretch.Files.Documents;

/// <summary>What one score is worth by both methods.</summary>
/// <param name="Score">Correct answers on the test that is converted.</param>
/// <param name="People">People who had this score.</param>
/// <param name="Linear">Linear equating; may lie outside the other test's range.</param>
/// <param name="Equipercentile">Equipercentile equating.</param>
public sealed record EquatedScoreFields(int Score, int People, EquivalentFields Linear, EquivalentFields Equipercentile);
