using Ical.Net.DataTypes;

namespace Homestretch.Files.Calendars;

/// <summary>An event as the file has it: one occasion, a series, or a change to one occasion of a series.</summary>
internal sealed class CalendarEntry
{
    /// <summary>Line of its BEGIN.</summary>
    public required int Line { get; init; }

    /// <summary>Joins a series with its changes; null where the file gives none.</summary>
    public required string? Uid { get; init; }

    /// <summary>The later revision of the same thing has the higher number.</summary>
    public required int Sequence { get; init; }

    /// <summary>False for cancelled events and those that leave a person free.</summary>
    public required bool Busy { get; init; }

    /// <summary>First start.</summary>
    public required CalendarTime Start { get; init; }

    /// <summary>How long each occasion lasts.</summary>
    public required CalendarSpan Span { get; init; }

    /// <summary>The occasion of a series that this entry replaces, or null.</summary>
    public required CalendarTime? Replaces { get; init; }

    /// <summary>Whether the change holds for all later occasions too.</summary>
    public required bool ThisAndFuture { get; init; }

    /// <summary>Recurrence rules with their last possible start and their lines.</summary>
    public List<(RecurrenceRule Rule, CalendarTime? Until, int Line)> Rules { get; } = [];

    /// <summary>Rules whose starts are left out (obsolete EXRULE).</summary>
    public List<(RecurrenceRule Rule, CalendarTime? Until, int Line)> Exceptions { get; } = [];

    /// <summary>Further starts, with a length of their own where the file gives one.</summary>
    public List<(CalendarTime Start, CalendarSpan? Span)> MoreStarts { get; } = [];

    /// <summary>Starts that are left out.</summary>
    public List<CalendarTime> LeftOut { get; } = [];
}
