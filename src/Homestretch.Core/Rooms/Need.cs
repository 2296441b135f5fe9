namespace Homestretch.Core.Rooms;

/// <summary>One reason why a candidate needs the coach.</summary>
/// <param name="Kind">Which.</param>
/// <param name="Amount">How much: days since the exam, days to the exam, points of pass chance lost, sessions missed, days of silence; 0 where nothing is counted.</param>
public readonly record struct Need(NeedKind Kind, int Amount);
