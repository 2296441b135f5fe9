namespace Homestretch.Store;

/// <summary>What a file is for.</summary>
public enum FileRole
{
    /// <summary>The blueprint (YAML). Kept as a version of an exam.</summary>
    Exam,

    /// <summary>Evidence (CSV); one or more. Kept row by row.</summary>
    Evidence,

    /// <summary>Free time (YAML).</summary>
    FreeTime,

    /// <summary>Busy times (iCalendar); at most one.</summary>
    Busy,

    /// <summary>Other people's results (CSV) to learn from; any number.</summary>
    Cohort,

    /// <summary>Calibrated items (CSV); at most one.</summary>
    ItemBank,

    /// <summary>Study that was done (CSV); any number. Kept row by row.</summary>
    StudyLog,
}
