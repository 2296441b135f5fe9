namespace Homestretch.Store;

/// <summary>What a stored file is for.</summary>
public enum FileRole
{
    /// <summary>The blueprint (YAML).</summary>
    Exam,

    /// <summary>Evidence (CSV); one or more.</summary>
    Evidence,

    /// <summary>Free time (YAML).</summary>
    FreeTime,

    /// <summary>Busy times (iCalendar); at most one.</summary>
    Busy,

    /// <summary>Other people's results (CSV) to learn from; any number.</summary>
    Cohort,

    /// <summary>Calibrated items (CSV); at most one.</summary>
    ItemBank,
}
