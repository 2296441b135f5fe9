namespace Homestretch.Core.Laboratory;

/// <summary>Sessions that do not take place.</summary>
/// <param name="Share">Chance that any one session is missed.</param>
/// <param name="SpellChance">Chance of one spell, such as an illness, in which all are missed.</param>
/// <param name="SpellDays">Days it lasts; it begins on any day before the exam with equal chance.</param>
public sealed record Absences(double Share, double SpellChance, int SpellDays);
