namespace Homestretch.Files.Pictures;

/// <summary>Where a column's label goes.</summary>
/// <param name="Column">Centre of the column it names.</param>
/// <param name="Centre">Centre of the label.</param>
/// <param name="Lines">The name, wrapped.</param>
/// <param name="Tier">0 for the row just below the columns, 1 for the row below that.</param>
internal sealed record LabelPlace(double Column, double Centre, List<string> Lines, int Tier);
