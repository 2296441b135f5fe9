namespace Homestretch.Web.Api;

/// <summary>A file to add to a case.</summary>
/// <param name="Role">What it is for: <c>free-time</c>, <c>busy</c>, <c>cohort</c> or <c>item-bank</c>. Of all but <c>cohort</c> the latest counts.</param>
/// <param name="File">The file.</param>
public sealed record NewCaseFile(string Role, NewFile File);
