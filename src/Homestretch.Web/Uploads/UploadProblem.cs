using Homestretch.Files;

namespace Homestretch.Web.Uploads;

/// <summary>Something to mend before a case can be made.</summary>
/// <param name="Field">The form field it belongs to.</param>
/// <param name="Text">What is wrong and what would be accepted; for a file <c>file:line: message</c>.</param>
/// <param name="In">The problem in a file; null where it is in none.</param>
public sealed record UploadProblem(string Field, string Text, FileProblem? In = null);
