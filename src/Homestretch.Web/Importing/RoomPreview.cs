using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Store;

namespace Homestretch.Web.Importing;

/// <summary>What would be imported.</summary>
/// <param name="Exam">The exam as read.</param>
/// <param name="Joins">The exam as it is kept, or will be.</param>
/// <param name="People">One for each row of the sheet, in its order.</param>
/// <param name="NotInSheet">People of whom the evidence tells and the sheet does not.</param>
/// <param name="Evidence">The rows of evidence by person.</param>
public sealed record RoomPreview(Exam Exam, StoredExam Joins, ImmutableArray<RoomPerson> People, ImmutableArray<string> NotInSheet, ILookup<string, EvidenceRow> Evidence)
{
    /// <summary>Those who can be imported.</summary>
    public ImmutableArray<RoomPerson> Ready => [.. People.Where(p => p.Ready)];
}
