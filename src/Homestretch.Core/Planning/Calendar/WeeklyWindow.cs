using NodaTime;

namespace Homestretch.Core.Planning.Calendar;

/// <summary>Free time that comes back every week.</summary>
public readonly record struct WeeklyWindow
{
    /// <param name="day">Day of the week.</param>
    /// <param name="start">Start on the wall clock.</param>
    /// <param name="end">End on the wall clock; midnight means the end of that day.</param>
    /// <exception cref="ArgumentException">The window ends before it starts.</exception>
    public WeeklyWindow(IsoDayOfWeek day, LocalTime start, LocalTime end)
    {
        if (day == IsoDayOfWeek.None)
        {
            throw new ArgumentOutOfRangeException(nameof(day));
        }

        if (end != LocalTime.Midnight && end <= start)
        {
            throw new ArgumentException($"A window must end after it starts; {start} to {end} does not.", nameof(end));
        }

        Day = day;
        Start = start;
        End = end;
    }

    /// <summary>Day of the week.</summary>
    public IsoDayOfWeek Day { get; }

    /// <summary>Start on the wall clock.</summary>
    public LocalTime Start { get; }

    /// <summary>End on the wall clock; midnight means the end of the day.</summary>
    public LocalTime End { get; }
}
