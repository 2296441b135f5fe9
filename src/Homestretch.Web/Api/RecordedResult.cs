using System.Collections.Immutable;

namespace Homestretch.Web.Api;

/// <summary>What was kept of an official result.</summary>
/// <param name="Id">The number of the result.</param>
/// <param name="Evidence">The numbers of the rows of evidence with what the report says of topics; taken out as evidence.</param>
public sealed record RecordedResult(long Id, ImmutableArray<long> Evidence);
