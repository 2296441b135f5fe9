namespace Homestretch.Core.Rooms;

/// <summary>One day of one candidate.</summary>
/// <param name="Planned">Minutes that were planned when the day began.</param>
/// <param name="Done">Minutes studied, as far as anybody said.</param>
/// <param name="Missed">Sessions that were said to be missed.</param>
/// <param name="PassChance">The pass chance of the last plan made on this day, 0 to 1; null where none was made.</param>
public readonly record struct DayFigures(int Planned, int Done, int Missed, double? PassChance);
