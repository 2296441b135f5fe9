using System.Collections.Immutable;

namespace Homestretch.Web.Api;

/// <summary>Rows that are kept of a case, in the order they came.</summary>
/// <typeparam name="T">Their cells.</typeparam>
/// <param name="Rows">The rows.</param>
public sealed record KeptRowList<T>(ImmutableArray<KeptRowFields<T>> Rows);
