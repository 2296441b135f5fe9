namespace Homestretch.Web.Api;

/// <summary>How many rows were taken out or put back.</summary>
/// <param name="Changed">Rows that are in another state now; those that were in it already are not counted.</param>
public sealed record ChangedRows(int Changed);
