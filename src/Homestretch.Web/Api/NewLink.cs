namespace Homestretch.Web.Api;

/// <summary>A personal link that was just made. It is said once; only its hash is kept.</summary>
/// <param name="Pages">Address of the candidate's pages.</param>
/// <param name="Calendar">Address of the calendar feed.</param>
public sealed record NewLink(string Pages, string Calendar);
