using System.Collections.Immutable;

using Homestretch.Core.Planning.Calendar;

using NodaTime;

namespace Homestretch.Core.Laboratory;

/// <summary>The free time that simulated candidates have: six made-up weeks, from 4 to 15 hours.</summary>
internal static class Calendars
{
    private static readonly IsoDayOfWeek[] _weekdays = [IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday];

    /// <summary>The first day of every plan is in this week; on which weekday differs.</summary>
    public static LocalDate FirstMonday { get; } = new(2026, 1, 5);

    /// <summary>Free time of each kind of week.</summary>
    public static ImmutableArray<FreeTime> All { get; } =
    [
        Week(On(new(19, 0), new(21, 0), IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Thursday), On(new(9, 0), new(12, 0), IsoDayOfWeek.Saturday)),
        Week(On(new(9, 0), new(13, 0), IsoDayOfWeek.Saturday), On(new(13, 0), new(17, 0), IsoDayOfWeek.Sunday)),
        Week(On(new(19, 30), new(20, 30), _weekdays), On(new(10, 0), new(12, 0), IsoDayOfWeek.Sunday)),
        Week(On(new(9, 0), new(12, 0), IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday), On(new(18, 0), new(21, 0), IsoDayOfWeek.Friday), On(new(9, 0), new(11, 0), IsoDayOfWeek.Sunday)),
        Week(On(new(19, 0), new(21, 0), IsoDayOfWeek.Wednesday), On(new(10, 0), new(12, 0), IsoDayOfWeek.Saturday)),
        Week(On(new(18, 30), new(21, 0), _weekdays), On(new(9, 0), new(12, 0), IsoDayOfWeek.Saturday)),
    ];

    private static FreeTime Week(params IEnumerable<WeeklyWindow>[] windows) => new(DateTimeZone.Utc, [.. windows.SelectMany(w => w)], [], []);

    private static IEnumerable<WeeklyWindow> On(LocalTime start, LocalTime end, params IsoDayOfWeek[] days) => days.Select(d => new WeeklyWindow(d, start, end));
}
