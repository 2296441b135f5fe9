using System.Collections.Immutable;

namespace Homestretch.Web.Api;

/// <summary>Rows to add, all or none.</summary>
/// <typeparam name="T">Their cells.</typeparam>
/// <param name="Rows">At least one.</param>
public sealed record NewRows<T>(ImmutableArray<T> Rows);
