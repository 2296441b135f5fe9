namespace Homestretch.Files.Documents;

/// <summary>How well the pass chance is known.</summary>
/// <param name="Mean">The pass chance, 0 to 1.</param>
/// <param name="Sd">How far it would typically move if all abilities became known.</param>
/// <param name="Low">Lower end of the 90 % interval of where it would then be.</param>
/// <param name="High">Upper end.</param>
public sealed record PassSurenessFields(double Mean, double Sd, double Low, double High);
