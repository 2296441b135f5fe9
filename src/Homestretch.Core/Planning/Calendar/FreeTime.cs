using System.Collections.Immutable;

using NodaTime;

namespace Homestretch.Core.Planning.Calendar;

/// <summary>When a person can study.</summary>
public sealed record FreeTime
{
    /// <summary>Four hours a day unless raised.</summary>
    public const int DefaultDailyCapMinutes = 240;

    /// <summary>A daily cap from here up is allowed but warned about.</summary>
    public const int WarnDailyCapMinutes = 480;

    /// <exception cref="ArgumentOutOfRangeException">The daily cap is not between 0 and 24 hours.</exception>
    public FreeTime(
        DateTimeZone zone,
        ImmutableArray<WeeklyWindow> weekly,
        ImmutableArray<DateInterval> daysOff,
        ImmutableArray<ExtraWindow> extra,
        int dailyCapMinutes = DefaultDailyCapMinutes)
    {
        ArgumentNullException.ThrowIfNull(zone);
        if (dailyCapMinutes is < 0 or > 24 * 60)
        {
            throw new ArgumentOutOfRangeException(nameof(dailyCapMinutes), dailyCapMinutes, "The daily cap is 0 to 1440 minutes.");
        }

        Zone = zone;
        Weekly = weekly;
        DaysOff = daysOff;
        Extra = extra;
        DailyCapMinutes = dailyCapMinutes;
    }

    /// <summary>The zone of all wall-clock times.</summary>
    public DateTimeZone Zone { get; }

    /// <summary>Windows that come back every week; they may overlap or touch.</summary>
    public ImmutableArray<WeeklyWindow> Weekly { get; }

    /// <summary>Days without any weekly window, ends included.</summary>
    public ImmutableArray<DateInterval> DaysOff { get; }

    /// <summary>Windows on single dates.</summary>
    public ImmutableArray<ExtraWindow> Extra { get; }

    /// <summary>Most study minutes in one day.</summary>
    public int DailyCapMinutes { get; }
}
