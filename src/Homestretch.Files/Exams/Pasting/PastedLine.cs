namespace Homestretch.Files.Exams.Pasting;

/// <summary>A line of a pasted table and what was made of it. Lines with nothing on them are left out.</summary>
/// <param name="Number">Its number in the text, from 1.</param>
/// <param name="Text">The line, shortened where it is very long.</param>
/// <param name="Use">What it was taken for.</param>
/// <param name="Name">The name that was read; empty where there is none.</param>
/// <param name="Weight">The weight that was read, as the exam file writes it; empty where there is none.</param>
/// <param name="Remark">Why it was not used, or what was changed or left out; empty where there is nothing to say.</param>
public sealed record PastedLine(int Number, string Text, PastedUse Use, string Name, string Weight, string Remark);
