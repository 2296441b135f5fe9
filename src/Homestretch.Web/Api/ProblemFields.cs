using System.Collections.Immutable;

namespace Homestretch.Web.Api;

/// <summary>Why a request was not done. Nothing has been changed then.</summary>
/// <param name="Type">Leads to what the status means.</param>
/// <param name="Title">What the status means.</param>
/// <param name="Status">The status.</param>
/// <param name="Detail">What went wrong, in a sentence or two.</param>
/// <param name="Instance">The path of the request.</param>
/// <param name="Errors">Everything that is wrong with the request; empty where the detail says it all.</param>
public sealed record ProblemFields(string Type, string Title, int Status, string Detail, string Instance, ImmutableArray<ApiError> Errors);
