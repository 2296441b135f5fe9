using System.Text.Json.Serialization;

namespace Homestretch.Web.Api;

/// <summary>One thing that is wrong with a request, said so that it can be mended.</summary>
/// <param name="Message">What is wrong and what would be accepted; the same words as on the pages and in the shell.</param>
/// <param name="File">The file it is in, as the request named it; null where it is in no file.</param>
/// <param name="Line">The line of that file, from 1; null where it is in no file.</param>
/// <param name="At">Where it is in a JSON body (RFC 6901), such as <c>/rows/0</c>; null where it is not there.</param>
/// <param name="Field">The query parameter or header; null where it is in the body.</param>
/// <param name="Value">What was given there; null where the message quotes it.</param>
public sealed record ApiError(string Message, string? File = null, int? Line = null, [property: JsonPropertyName("pointer")] string? At = null, string? Field = null, string? Value = null);
