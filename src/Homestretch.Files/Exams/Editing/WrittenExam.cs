using System.Collections.Immutable;

namespace Homestretch.Files.Exams.Editing;

/// <summary>An exam file made of a form.</summary>
/// <param name="Text">The file.</param>
/// <param name="Fields">For each of its lines the field of the form that it holds.</param>
public sealed record WrittenExam(string Text, ImmutableArray<string> Fields);
