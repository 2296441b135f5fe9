namespace Homestretch.Files.Documents;

/// <summary>How many passed against how many were to.</summary>
/// <param name="Passed">How many passed.</param>
/// <param name="Expected">The sum of the pass chances.</param>
/// <param name="Low">Lower end of the central 90 % if the forecasts are right.</param>
/// <param name="High">Upper end.</param>
public sealed record PassesFields(int Passed, double Expected, int Low, int High);
