namespace Homestretch.Core.Planning.Resources;

/// <summary>What a resource is good for.</summary>
public enum ResourceKind
{
    /// <summary>Explains: a chapter, a video, a course.</summary>
    Teaches,

    /// <summary>Items to practise on.</summary>
    PracticeItems,

    /// <summary>A whole practice exam.</summary>
    PracticeExam,

    /// <summary>To look things up in: a glossary, a code, a summary.</summary>
    Reference,
}
