namespace Homestretch.Files.Exams.Editing;

/// <summary>A subtopic as typed.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Weight">Its share of the topic, such as <c>40 %</c>; empty where none is published.</param>
public sealed record SubtopicDraft(string Name, string Weight)
{
    /// <summary>Whether nothing has been typed.</summary>
    public bool IsBlank => string.IsNullOrWhiteSpace(Name) && string.IsNullOrWhiteSpace(Weight);
}
