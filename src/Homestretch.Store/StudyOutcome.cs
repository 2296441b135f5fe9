namespace Homestretch.Store;

/// <summary>What became of a study session.</summary>
public enum StudyOutcome
{
    /// <summary>It took place.</summary>
    Done,

    /// <summary>It took place for part of its time.</summary>
    Partly,

    /// <summary>It did not take place.</summary>
    Missed,
}
