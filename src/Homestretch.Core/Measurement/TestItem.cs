namespace Homestretch.Core.Measurement;

/// <summary>An item of a test that several people took.</summary>
/// <param name="Label">Its label, unique in the test.</param>
/// <param name="Topic">Its topic.</param>
/// <param name="Key">The correct option, where known.</param>
/// <param name="GuessChance">Chance of a correct answer by guessing: 1 / options, 0 where nothing is chosen from.</param>
public sealed record TestItem(string Label, string Topic, string? Key = null, double GuessChance = 0);
