namespace Homestretch.Core.Evidence;

/// <summary>What kind of sitting an attempt was.</summary>
public enum AttemptKind
{
    /// <summary>A test taken to find out where the person stands.</summary>
    Diagnostic,

    /// <summary>A short test after study.</summary>
    Quiz,

    /// <summary>A full-length practice exam.</summary>
    PracticeExam,

    /// <summary>The real exam, as reported by its owner.</summary>
    Official,
}
