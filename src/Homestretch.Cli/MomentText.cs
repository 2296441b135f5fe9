using NodaTime;
using NodaTime.Text;

namespace Homestretch.Cli;

/// <summary>Dates and times on the command line.</summary>
internal static class MomentText
{
    private static readonly IPattern<LocalDateTime> _local = new CompositePatternBuilder<LocalDateTime>
    {
        { LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm"), _ => true },
        { LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm"), _ => true },
        { LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss"), _ => true },
        { LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm:ss"), _ => true },
    }.Build();

    private static readonly IPattern<OffsetDateTime> _offset = new CompositePatternBuilder<OffsetDateTime>
    {
        { OffsetDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mmo<Z+HH:mm>"), _ => true },
        { OffsetDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:sso<Z+HH:mm>"), _ => true },
    }.Build();

    /// <summary>A date, from a date or a date with time.</summary>
    /// <exception cref="UsageException">It is neither.</exception>
    public static LocalDate Date(string option, string text)
        => LocalDatePattern.Iso.Parse(text.Trim()) is { Success: true } date ? date.Value
            : _local.Parse(text.Trim()) is { Success: true } local ? local.Value.Date
            : _offset.Parse(text.Trim()) is { Success: true } offset ? offset.Value.Date
            : throw new UsageException($"{option} is a date such as 2026-12-16; '{text}' is not.");

    /// <summary>A moment in a zone, from a date (its first moment), a wall-clock time in that zone, or a time with its offset.</summary>
    /// <exception cref="UsageException">It is none of these.</exception>
    public static Func<DateTimeZone, ZonedDateTime> Moment(string option, string text)
        => LocalDatePattern.Iso.Parse(text.Trim()) is { Success: true } date ? zone => date.Value.AtMidnight().InZoneLeniently(zone)
            : _local.Parse(text.Trim()) is { Success: true } local ? zone => local.Value.InZoneLeniently(zone)
            : _offset.Parse(text.Trim()) is { Success: true } offset ? zone => offset.Value.InZone(zone)
            : throw new UsageException($"{option} is a date or a date with time, such as 2026-11-25T08:00; '{text}' is neither.");
}
