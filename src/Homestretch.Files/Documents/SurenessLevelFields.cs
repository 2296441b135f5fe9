namespace Homestretch.Files.Documents;

/// <summary>Answers given with about the same sureness.</summary>
/// <param name="Low">Sureness from here, 0 to 1 ...</param>
/// <param name="High">... to here.</param>
/// <param name="Answers">Answers.</param>
/// <param name="Right">Correct ones.</param>
public sealed record SurenessLevelFields(double Low, double High, int Answers, int Right);
