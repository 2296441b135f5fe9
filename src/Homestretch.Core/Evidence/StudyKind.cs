namespace Homestretch.Core.Evidence;

/// <summary>How a person studied.</summary>
public enum StudyKind
{
    /// <summary>From material that teaches: a chapter, a video, a class.</summary>
    Teaching,

    /// <summary>Worked examples, step by step.</summary>
    WorkedExamples,

    /// <summary>Answering items, with feedback.</summary>
    PracticeItems,

    /// <summary>Recalling terms and facts from memory.</summary>
    Retrieval,

    /// <summary>Reading over what is known.</summary>
    Review,
}
