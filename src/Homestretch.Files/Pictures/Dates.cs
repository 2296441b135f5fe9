using NodaTime;
using NodaTime.Text;

namespace Homestretch.Files.Pictures;

/// <summary>Dates and times as people read them.</summary>
public static class Dates
{
    private static readonly LocalDatePattern ShortPattern = LocalDatePattern.CreateWithInvariantCulture("ddd d MMM");
    private static readonly LocalDatePattern LongPattern = LocalDatePattern.CreateWithInvariantCulture("dddd d MMMM yyyy");
    private static readonly LocalDatePattern DayOfMonthPattern = LocalDatePattern.CreateWithInvariantCulture("d MMM");
    private static readonly LocalDatePattern DayOfWeekPattern = LocalDatePattern.CreateWithInvariantCulture("ddd d");
    private static readonly LocalDatePattern PlainPattern = LocalDatePattern.CreateWithInvariantCulture("d MMMM yyyy");
    private static readonly LocalTimePattern TimePattern = LocalTimePattern.CreateWithInvariantCulture("HH':'mm");

    /// <summary>"Mon 30 Nov".</summary>
    public static string Day(LocalDate date) => ShortPattern.Format(date);

    /// <summary>"30 Nov".</summary>
    public static string DayOfMonth(LocalDate date) => DayOfMonthPattern.Format(date);

    /// <summary>"Mon 30".</summary>
    public static string DayOfWeek(LocalDate date) => DayOfWeekPattern.Format(date);

    /// <summary>"30 November 2026".</summary>
    public static string Plain(LocalDate date) => PlainPattern.Format(date);

    /// <summary>"Monday 30 November 2026".</summary>
    public static string FullDay(LocalDate date) => LongPattern.Format(date);

    /// <summary>"18:00".</summary>
    public static string Time(LocalTime time) => TimePattern.Format(time);

    /// <summary>"18:00–18:40".</summary>
    public static string Span(ZonedDateTime start, ZonedDateTime end) => Time(start.TimeOfDay) + "–" + Time(end.TimeOfDay);

    /// <summary>Days between two days in words: "today", "tomorrow", "21 days left".</summary>
    public static string Until(LocalDate from, LocalDate to) => Period.DaysBetween(from, to) switch
    {
        < 0 => "past",
        0 => "today",
        1 => "tomorrow",
        int days => Figures.Plural(days, "day") + " left",
    };
}
