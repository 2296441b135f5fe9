using NodaTime;

namespace Homestretch.Core.Planning.Calendar;

/// <summary>Free time on one date, besides the weekly windows; also on a day off.</summary>
public readonly record struct ExtraWindow
{
    /// <param name="date">The date.</param>
    /// <param name="start">Start on the wall clock.</param>
    /// <param name="end">End on the wall clock; midnight means the end of that day.</param>
    /// <exception cref="ArgumentException">The window ends before it starts.</exception>
    public ExtraWindow(LocalDate date, LocalTime start, LocalTime end)
    {
        if (end != LocalTime.Midnight && end <= start)
        {
            throw new ArgumentException($"A window must end after it starts; {start} to {end} does not.", nameof(end));
        }

        Date = date;
        Start = start;
        End = end;
    }

    /// <summary>The date.</summary>
    public LocalDate Date { get; }

    /// <summary>Start on the wall clock.</summary>
    public LocalTime Start { get; }

    /// <summary>End on the wall clock; midnight means the end of the day.</summary>
    public LocalTime End { get; }
}
