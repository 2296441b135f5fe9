using NodaTime;

namespace Homestretch.Store;

/// <summary>What the list of cases says of one case, worked out whenever the case changes, so that a list need not read any case. None of it depends on the clock.</summary>
public sealed class CaseFigures
{
    /// <summary>The case.</summary>
    public required string CaseKey { get; init; }

    /// <summary>The exam day that holds.</summary>
    public LocalDate ExamDay { get; set; }

    /// <summary>The last day (UTC) on which results or study came in; the day of entering where none has.</summary>
    public LocalDate HeardOn { get; set; }

    /// <summary>Whether the candidate has a personal link.</summary>
    public bool HasLink { get; set; }

    /// <summary>Whether an official result is recorded.</summary>
    public bool HasResult { get; set; }

    /// <summary>The first day of <see cref="ByDay"/>.</summary>
    public LocalDate FirstDay { get; set; }

    /// <summary>Minutes planned and done, sessions missed and pass chance day by day, as <see cref="Core.Rooms.FiguresByDay.Write"/> writes them.</summary>
    public string ByDay { get; set; } = "";

    /// <summary>Another number whenever the figures were worked out anew, so that a list reads only what has changed since it was last looked at.</summary>
    public long Revision { get; set; }
}
