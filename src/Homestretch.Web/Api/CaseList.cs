using System.Collections.Immutable;

namespace Homestretch.Web.Api;

/// <summary>Part of the list of cases.</summary>
/// <param name="Total">Cases in the whole list.</param>
/// <param name="Offset">Cases before the first one here.</param>
/// <param name="Cases">Newest first.</param>
public sealed record CaseList(int Total, int Offset, ImmutableArray<CaseLine> Cases);
