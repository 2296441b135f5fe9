using System.Collections.Immutable;

namespace Homestretch.Web.Api;

/// <summary>Numbers of rows, files or decisions of a case or an exam.</summary>
/// <param name="Ids">The numbers.</param>
public sealed record RowIds(ImmutableArray<long> Ids);
