namespace Homestretch.Web.Api;

/// <summary>A decision that is kept. The figures it rested on are in the case's export.</summary>
/// <param name="Text">What was decided.</param>
/// <param name="ExamDay">The exam day from then on, ISO 8601; null where it left it alone.</param>
public sealed record DecisionLine(string Text, string? ExamDay);
