namespace Homestretch.Core.Words;

/// <summary>How the recall of a word's meaning went, as the person judges it.</summary>
public enum RecallOutcome
{
    /// <summary>The meaning was known.</summary>
    Knew,

    /// <summary>A part of it was known.</summary>
    Partly,

    /// <summary>It was not known.</summary>
    DidNotKnow,
}
