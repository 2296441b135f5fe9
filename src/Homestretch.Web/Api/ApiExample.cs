namespace Homestretch.Web.Api;

/// <summary>How to call an operation with curl, for the page that lists them.</summary>
/// <param name="Arguments">What follows the address: options and data; may be empty.</param>
/// <param name="Query">The query of the address; may be empty.</param>
public sealed record ApiExample(string Arguments, string Query);
