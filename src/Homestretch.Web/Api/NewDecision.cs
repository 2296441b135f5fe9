namespace Homestretch.Web.Api;

/// <summary>Something that was decided.</summary>
/// <param name="Text">What, in 1 to 1000 characters.</param>
/// <param name="ExamDay">The exam day from now on, ISO 8601; left out where the decision leaves it alone.</param>
public sealed record NewDecision(string Text, string? ExamDay = null);
