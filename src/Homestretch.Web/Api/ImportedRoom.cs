using System.Collections.Immutable;

namespace Homestretch.Web.Api;

/// <summary>The cases of an import. Their first plans are made one after the other; a case has its plan once <c>/cases/{key}/plans</c> lists it.</summary>
/// <param name="Exam">The key of their exam.</param>
/// <param name="Cases">One for each person, in the order of the sheet.</param>
public sealed record ImportedRoom(string Exam, ImmutableArray<ImportedCase> Cases);
