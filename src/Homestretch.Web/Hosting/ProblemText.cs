namespace Homestretch.Web.Hosting;

/// <summary>What the page about a problem says, where there is more to say than a status; set as a feature of the request.</summary>
/// <param name="Title">The problem, as a short sentence.</param>
/// <param name="What">What it means and what to do.</param>
public sealed record ProblemText(string Title, string What);
