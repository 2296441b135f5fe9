namespace Homestretch.Files.Exams.Editing;

/// <summary>Something wrong in a form for an exam.</summary>
/// <param name="Field">The field, as <see cref="DraftField"/> names it.</param>
/// <param name="Text">What is wrong and what would be accepted.</param>
public sealed record DraftProblem(string Field, string Text);
