using System.Globalization;

using Homestretch.Files.Calendars;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Files.Tests.Calendars;

/// <summary>What makes a person busy. Expected times are worked out from the zones' published rules.</summary>
public class BusyFileTests
{
    private static readonly DateTimeZone London = DateTimeZoneProviders.Tzdb["Europe/London"];

    private static readonly Interval November2026 = new(Instant.FromUtc(2026, 11, 1, 0, 0), Instant.FromUtc(2026, 12, 1, 0, 0));

    [Theory]
    [InlineData("DTSTART:20261125T090000Z\nDTEND:20261125T100000Z", "25T09:00/25T10:00")]
    [InlineData("DTSTART:20261125T090000\nDURATION:PT1H30M", "25T09:00/25T10:30")]
    [InlineData("DTSTART;TZID=America/New_York:20261125T090000\nDURATION:PT1H", "25T14:00/25T15:00")]
    [InlineData("DTSTART;TZID=\"America/New_York\":20261125T090000\nDURATION:PT1H", "25T14:00/25T15:00")]
    [InlineData("DTSTART;TZID=Eastern Standard Time:20261125T090000\nDURATION:PT1H", "25T14:00/25T15:00")]
    [InlineData("DTSTART;TZID=/example.org/20050126_1/America/New_York:20261125T090000\nDURATION:PT1H", "25T14:00/25T15:00")]
    [InlineData("DTSTART;VALUE=DATE:20261125", "25T00:00/26T00:00")]
    [InlineData("DTSTART;VALUE=DATE:20261125\nDTEND;VALUE=DATE:20261125", "25T00:00/26T00:00")]
    [InlineData("DTSTART;VALUE=DATE:20261127\nDTEND;VALUE=DATE:20261130", "27T00:00/30T00:00")]
    [InlineData("DTSTART;VALUE=DATE:20261127\nDURATION:P1W", "27T00:00/01T00:00")]
    [InlineData("DTSTART:20261125T090000Z", "")]
    [InlineData("DTSTART:20261125T090000Z\nDTEND:20261125T090000Z", "")]
    [InlineData("DTSTART:20261125T090000Z\nDURATION:PT0S", "")]
    [InlineData("DTSTART:20261125T090000Z\nDURATION:PT1H\nTRANSP:TRANSPARENT", "")]
    [InlineData("DTSTART:20261125T090000Z\nDURATION:PT1H\nSTATUS:CANCELLED", "")]
    [InlineData("DTSTART:20261125T090000Z\nDURATION:PT1H\nSTATUS:TENTATIVE", "25T09:00/25T10:00")]
    [InlineData("DTSTART:20261031T220000Z\nDURATION:PT4H", "01T00:00/01T02:00")]
    [InlineData("DTSTART:20261130T230000Z\nDURATION:PT4H", "30T23:00/01T00:00")]
    [InlineData("DTSTART:20261125T090000Z\nDURATION:PT1H\nRDATE:20261127T090000Z,20261128T090000Z", "25T09:00/25T10:00 27T09:00/27T10:00 28T09:00/28T10:00")]
    [InlineData("DTSTART:20261125T090000Z\nDURATION:PT1H\nRDATE;VALUE=PERIOD:20261127T090000Z/PT2H,20261128T090000Z/20261128T093000Z", "25T09:00/25T10:00 27T09:00/27T11:00 28T09:00/28T09:30")]
    [InlineData("DTSTART:20261124T090000Z\nDURATION:PT1H\nRRULE:FREQ=DAILY;COUNT=4\nEXDATE:20261125T090000Z\nEXDATE;VALUE=DATE:20261126", "24T09:00/24T10:00 27T09:00/27T10:00")]
    [InlineData("DTSTART;VALUE=DATE:20261102\nRRULE:FREQ=WEEKLY;UNTIL=20261116", "02T00:00/03T00:00 09T00:00/10T00:00 16T00:00/17T00:00")]
    [InlineData("DTSTART;TZID=Europe/London:20260803T180000\nDURATION:PT1H\nRRULE:FREQ=WEEKLY;UNTIL=20261109", "02T18:00/02T19:00 09T18:00/09T19:00")]
    [InlineData("DTSTART:19900101T060000\nDURATION:PT10M\nRRULE:FREQ=MONTHLY;BYMONTHDAY=31,30", "30T06:00/30T06:10")]
    [InlineData("DTSTART:16040101\nRRULE:FREQ=YEARLY;BYMONTH=11;BYMONTHDAY=5", "05T00:00/06T00:00")]
    [InlineData("DTSTART:20261124T090000Z\nDURATION:PT1H\nRRULE:FREQ=DAILY;UNTIL=99991231T235959Z\nEXRULE:FREQ=DAILY;INTERVAL=2", "25T09:00/25T10:00 27T09:00/27T10:00 29T09:00/29T10:00")]
    public void One_event(string lines, string expected) => Assert.Equal(expected, Busy($"BEGIN:VEVENT\nUID:a\n{lines}\nEND:VEVENT", London, November2026));

    [Fact]
    public void Overlapping_and_touching_events_become_one() => Assert.Equal("25T09:00/25T12:00", Busy(
        "BEGIN:VEVENT\nUID:a\nDTSTART:20261125T100000Z\nDTEND:20261125T110000Z\nEND:VEVENT\nBEGIN:VEVENT\nUID:b\nDTSTART:20261125T090000Z\nDTEND:20261125T103000Z\nEND:VEVENT\nBEGIN:VEVENT\nUID:c\nDTSTART:20261125T110000Z\nDTEND:20261125T120000Z\nEND:VEVENT",
        London, November2026));

    [Fact]
    public void A_changed_occasion_replaces_the_planned_one_and_a_cancelled_one_is_free() => Assert.Equal("03T19:00/03T21:00 11T20:00/11T21:00 24T19:00/24T21:00", Busy(
        """
        BEGIN:VEVENT
        UID:choir
        DTSTART;TZID=Europe/London:20261103T190000
        DTEND;TZID=Europe/London:20261103T210000
        RRULE:FREQ=WEEKLY;COUNT=4
        END:VEVENT
        BEGIN:VEVENT
        UID:choir
        RECURRENCE-ID;TZID=America/New_York:20261110T140000
        DTSTART;TZID=Europe/London:20261111T200000
        DTEND;TZID=Europe/London:20261111T210000
        END:VEVENT
        BEGIN:VEVENT
        UID:choir
        RECURRENCE-ID:20261117T190000Z
        DTSTART;TZID=Europe/London:20261117T190000
        DTEND;TZID=Europe/London:20261117T210000
        STATUS:CANCELLED
        END:VEVENT
        """, London, November2026));

    [Fact]
    public void A_change_for_this_and_future_occasions_moves_the_rest() => Assert.Equal("03T19:00/03T21:00 11T20:00/11T21:00 18T20:00/18T21:00 25T20:00/25T21:00", Busy(
        "BEGIN:VEVENT\nUID:x\nDTSTART;TZID=Europe/London:20261103T190000\nDURATION:PT2H\nRRULE:FREQ=WEEKLY;COUNT=4\nEND:VEVENT\n"
        + "BEGIN:VEVENT\nUID:x\nRECURRENCE-ID;RANGE=THISANDFUTURE;TZID=Europe/London:20261110T190000\nDTSTART;TZID=Europe/London:20261111T200000\nDURATION:PT1H\nEND:VEVENT",
        London, November2026));

    [Fact]
    public void The_latest_revision_of_an_event_counts() => Assert.Equal("25T12:00/25T13:00", Busy(
        "BEGIN:VEVENT\nUID:x\nSEQUENCE:2\nDTSTART:20261125T120000Z\nDURATION:PT1H\nEND:VEVENT\nBEGIN:VEVENT\nUID:x\nSEQUENCE:1\nDTSTART:20261124T120000Z\nDURATION:PT1H\nEND:VEVENT",
        London, November2026));

    [Fact]
    public void Free_busy_components_count_as_busy_except_for_free_periods() => Assert.Equal("25T12:00/25T13:00 26T12:00/26T12:30", Busy(
        "BEGIN:VFREEBUSY\nUID:x\nFREEBUSY;FBTYPE=BUSY:20261125T120000Z/PT1H,20261126T120000Z/20261126T123000Z\nFREEBUSY;FBTYPE=FREE:20261127T120000Z/PT1H\nEND:VFREEBUSY",
        London, November2026));

    [Fact]
    public void To_dos_journals_and_alarms_take_no_time() => Assert.Equal("25T12:00/25T13:00", Busy(
        "BEGIN:VTODO\nUID:t\nDTSTART:20261120T120000Z\nDUE:20261121T120000Z\nEND:VTODO\nBEGIN:VJOURNAL\nUID:j\nDTSTART:20261120T120000Z\nEND:VJOURNAL\n"
        + "BEGIN:VEVENT\nUID:x\nDTSTART:20261125T120000Z\nDURATION:PT1H\nBEGIN:VALARM\nTRIGGER:-PT5M\nACTION:DISPLAY\nDURATION:PT3H\nEND:VALARM\nEND:VEVENT",
        London, November2026));

    // Europe/London: clocks go from 02:00 to 01:00 on 25 October 2026 and from 01:00 to 02:00 on 28 March 2027 (last Sundays, EU rule).
    [Theory]
    [InlineData("DTSTART;VALUE=DATE:20261025", 25)]
    [InlineData("DTSTART;VALUE=DATE:20270328", 23)]
    [InlineData("DTSTART;TZID=Europe/London:20261024T120000\nDURATION:P1D", 25)]
    [InlineData("DTSTART;TZID=Europe/London:20261024T120000\nDURATION:PT24H", 24)]
    [InlineData("DTSTART;TZID=Europe/London:20270327T120000\nDTEND;TZID=Europe/London:20270328T120000", 23)]
    public void A_day_on_which_clocks_change_has_its_real_length(string lines, int hours)
    {
        Interval all = new(Instant.FromUtc(2026, 1, 1, 0, 0), Instant.FromUtc(2028, 1, 1, 0, 0));
        Assert.Equal(Duration.FromHours(hours), Assert.Single(Parse($"BEGIN:VEVENT\nUID:a\n{lines}\nEND:VEVENT", London, all)).Duration);
    }

    // Clock changes by the zones' published rules: New York 8 March 2026 02:00 to 03:00 and 1 November 2026 02:00 to 01:00; London 29 March 2026
    // 01:00 to 02:00 and 25 October 2026 02:00 to 01:00; Lord Howe Island by half an hour, 4 October 2026 02:00 to 02:30 and 5 April 2026 02:00 to 01:30.
    // RFC 5545, section 3.3.5: a time shown twice is the first, a skipped one is read with the offset before the gap.
    [Theory]
    [InlineData("America/New_York", "20260307T023000", "2026-03-07T07:30:00Z 2026-03-08T07:30:00Z 2026-03-09T06:30:00Z")]
    [InlineData("America/New_York", "20261031T013000", "2026-10-31T05:30:00Z 2026-11-01T05:30:00Z 2026-11-02T06:30:00Z")]
    [InlineData("America/New_York", "20261031T090000", "2026-10-31T13:00:00Z 2026-11-01T14:00:00Z 2026-11-02T14:00:00Z")]
    [InlineData("Europe/London", "20260328T013000", "2026-03-28T01:30:00Z 2026-03-29T01:30:00Z 2026-03-30T00:30:00Z")]
    [InlineData("Europe/London", "20261024T013000", "2026-10-24T00:30:00Z 2026-10-25T00:30:00Z 2026-10-26T01:30:00Z")]
    [InlineData("Australia/Lord_Howe", "20261003T021500", "2026-10-02T15:45:00Z 2026-10-03T15:45:00Z 2026-10-04T15:15:00Z")]
    [InlineData("Australia/Lord_Howe", "20260404T014500", "2026-04-03T14:45:00Z 2026-04-04T14:45:00Z 2026-04-05T15:15:00Z")]
    public void A_daily_event_keeps_its_wall_clock_time_when_clocks_change(string zone, string start, string expected)
    {
        Interval all = new(Instant.FromUtc(2026, 1, 1, 0, 0), Instant.FromUtc(2027, 1, 1, 0, 0));
        IEnumerable<Interval> busy = Parse($"BEGIN:VEVENT\nUID:a\nDTSTART;TZID={zone}:{start}\nDURATION:PT10M\nRRULE:FREQ=DAILY;COUNT=3\nEND:VEVENT", DateTimeZone.Utc, all);
        Assert.Equal(expected, string.Join(' ', busy.Select(b => InstantPattern.General.Format(b.Start))));
    }

    [Fact]
    public void An_hourly_event_also_fills_the_hour_that_the_clock_shows_twice()
    {
        Interval night = new(Instant.FromUtc(2026, 10, 24, 22, 0), Instant.FromUtc(2026, 10, 25, 6, 0));
        ImmutableInterval(Parse("BEGIN:VEVENT\nUID:a\nDTSTART;TZID=Europe/London:20261024T220000\nDURATION:PT1H\nRRULE:FREQ=HOURLY\nEND:VEVENT", London, night), night);
    }

    private const string OwnZone =
        """
        BEGIN:VTIMEZONE
        TZID:Customized Time Zone
        BEGIN:STANDARD
        DTSTART:16010101T020000
        TZOFFSETFROM:+0100
        TZOFFSETTO:+0000
        RRULE:FREQ=YEARLY;INTERVAL=1;BYDAY=-1SU;BYMONTH=10
        END:STANDARD
        BEGIN:DAYLIGHT
        DTSTART:16010101T010000
        TZOFFSETFROM:+0000
        TZOFFSETTO:+0100
        RRULE:FREQ=YEARLY;INTERVAL=1;BYDAY=-1SU;BYMONTH=3
        END:DAYLIGHT
        END:VTIMEZONE

        """;

    [Theory]
    [InlineData("20261024T013000")]
    [InlineData("20270327T013000")]
    [InlineData("20260701T120000")]
    public void A_zone_defined_in_the_file_gives_the_times_of_the_same_rules_in_the_database(string start)
    {
        Interval all = new(Instant.FromUtc(2026, 1, 1, 0, 0), Instant.FromUtc(2028, 1, 1, 0, 0));
        string Event(string zone) => $"BEGIN:VEVENT\nUID:a\nDTSTART;TZID={zone}:{start}\nDURATION:PT10M\nRRULE:FREQ=DAILY;COUNT=3\nEND:VEVENT";
        Assert.Equal(Parse(Event("Europe/London"), DateTimeZone.Utc, all), Parse(OwnZone + Event("Customized Time Zone"), DateTimeZone.Utc, all));
    }

    [Fact]
    public void A_zone_with_a_fixed_offset_can_be_defined_in_the_file() => Assert.Equal("25T05:30/25T06:30", Busy(
        "BEGIN:VTIMEZONE\nTZID:Here\nBEGIN:STANDARD\nDTSTART:19700101T000000\nTZOFFSETFROM:+0330\nTZOFFSETTO:+0330\nEND:STANDARD\nEND:VTIMEZONE\n"
        + "BEGIN:VEVENT\nUID:a\nDTSTART;TZID=Here:20261125T090000\nDURATION:PT1H\nEND:VEVENT", DateTimeZone.Utc, November2026));

    [Fact]
    public void Whole_days_and_floating_times_are_in_the_persons_zone()
    {
        DateTimeZone newYork = DateTimeZoneProviders.Tzdb["America/New_York"];
        System.Collections.Immutable.ImmutableArray<Interval> busy = Parse("BEGIN:VEVENT\nUID:a\nDTSTART;VALUE=DATE:20261125\nEND:VEVENT\nBEGIN:VEVENT\nUID:b\nDTSTART:20261127T090000\nDURATION:PT1H\nEND:VEVENT", newYork, November2026);
        Assert.Equal(
            [new Interval(Instant.FromUtc(2026, 11, 25, 5, 0), Instant.FromUtc(2026, 11, 26, 5, 0)), new Interval(Instant.FromUtc(2026, 11, 27, 14, 0), Instant.FromUtc(2026, 11, 27, 15, 0))],
            busy);
    }

    [Theory]
    [InlineData("RRULE:FREQ=SECONDLY")]
    [InlineData("RRULE:FREQ=SECONDLY;COUNT=2000000000")]
    [InlineData("RRULE:FREQ=MINUTELY;BYSECOND=0,1,2,3,4,5,6,7,8,9,10,11,12,13,14,15")]
    [InlineData("RRULE:FREQ=SECONDLY;BYMONTH=2;BYMONTHDAY=30")]
    [InlineData("RRULE:FREQ=HOURLY;COUNT=5;BYMONTH=2;BYMONTHDAY=30")]
    public void A_rule_that_repeats_too_often_is_refused_at_once(string rule)
    {
        System.Diagnostics.Stopwatch watch = System.Diagnostics.Stopwatch.StartNew();
        ReadResult<BusyTimes> result = BusyFile.Parse("b.ics", Wrap($"BEGIN:VEVENT\nUID:a\nDTSTART:19700101T000000Z\nDURATION:PT1S\n{rule}\nEND:VEVENT"), London, November2026);
        Assert.Contains("repeats too often", Assert.Single(result.Problems).Message, StringComparison.Ordinal);
        Assert.Equal(7, result.Problems[0].Line);
        Assert.True(watch.Elapsed < TimeSpan.FromSeconds(30), watch.Elapsed.ToString());
    }

    [Theory]
    [InlineData("RRULE:FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30")]
    [InlineData("RRULE:FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30")]
    [InlineData("RRULE:FREQ=MONTHLY;INTERVAL=12;BYMONTHDAY=31;BYMONTH=4;COUNT=3")]
    public void A_rule_that_never_comes_true_ends(string rule) =>
        Assert.Equal("", Busy($"BEGIN:VEVENT\nUID:a\nDTSTART:19700101T000000Z\nDURATION:PT1H\n{rule}\nEND:VEVENT", London, November2026));

    [Fact]
    public void Many_costly_rules_together_are_refused_in_time()
    {
        string events = string.Concat(Enumerable.Range(0, 3000).Select(i => $"BEGIN:VEVENT\nUID:{i}\nDTSTART:20000101T000000Z\nDURATION:PT1S\nRRULE:FREQ=MINUTELY\nEND:VEVENT\n"));
        System.Diagnostics.Stopwatch watch = System.Diagnostics.Stopwatch.StartNew();
        ReadResult<BusyTimes> result = BusyFile.Parse("b.ics", Wrap(events.TrimEnd()), London, November2026);
        Assert.False(result.IsOk);
        Assert.True(watch.Elapsed < TimeSpan.FromSeconds(60), watch.Elapsed.ToString());
    }

    [Fact]
    public void A_file_larger_than_the_limit_is_refused()
    {
        ReadResult<BusyTimes> result = BusyFile.Parse("b.ics", new string('x', 21 * 1024 * 1024), London, November2026);
        Assert.Contains("larger than 20 MB", Assert.Single(result.Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_horizon_without_an_end_is_a_mistake_of_the_caller() =>
        Assert.Throws<ArgumentException>(() => BusyFile.Parse("b.ics", Wrap(""), London, new Interval(Instant.FromUtc(2026, 1, 1, 0, 0), null)));

    private static void ImmutableInterval(IReadOnlyList<Interval> busy, Interval expected) => Assert.Equal(expected, Assert.Single(busy));

    private static string Wrap(string components) => $"BEGIN:VCALENDAR\nVERSION:2.0\n{components}\nEND:VCALENDAR\n";

    private static System.Collections.Immutable.ImmutableArray<Interval> Parse(string components, DateTimeZone zone, Interval horizon)
    {
        ReadResult<BusyTimes> result = BusyFile.Parse("b.ics", Wrap(components), zone, horizon);
        Assert.True(result.IsOk, string.Join('\n', result.Problems));
        return result.Value!.Busy;
    }

    private static string Busy(string components, DateTimeZone zone, Interval horizon) =>
        string.Join(' ', Parse(components, zone, horizon).Select(b => $"{Time(b.Start)}/{Time(b.End)}"));

    private static string Time(Instant instant) => instant.InUtc().LocalDateTime.ToString("dd'T'HH:mm", CultureInfo.InvariantCulture);
}
