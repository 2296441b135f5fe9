using System.Collections.Immutable;

namespace Homestretch.Web.Api;

/// <summary>What an import of a room would do. Nothing has been imported.</summary>
/// <param name="ExamName">The exam's name.</param>
/// <param name="Ready">People who can be imported.</param>
/// <param name="People">One for each row of the sheet, in its order.</param>
/// <param name="NotInSheet">People of whom the evidence tells and the sheet does not; they will not be imported.</param>
public sealed record RoomLook(string ExamName, int Ready, ImmutableArray<RoomLine> People, ImmutableArray<string> NotInSheet);
