namespace Homestretch.Files.Exams.Pasting;

/// <summary>What a line of a pasted table was taken for.</summary>
public enum PastedUse
{
    /// <summary>The name of a section.</summary>
    Section,

    /// <summary>A topic.</summary>
    Topic,

    /// <summary>A subtopic of the topic before it.</summary>
    Subtopic,

    /// <summary>More of the name, or the weight, of the line before or after it.</summary>
    Part,

    /// <summary>The names of the columns.</summary>
    Heading,

    /// <summary>The sum of the table.</summary>
    Total,

    /// <summary>Nothing that a blueprint holds; the reason is said.</summary>
    NotUsed,
}
