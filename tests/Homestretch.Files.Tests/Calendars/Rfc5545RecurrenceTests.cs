using System.Globalization;

using Homestretch.Files.Calendars;

using NodaTime;

namespace Homestretch.Files.Tests.Calendars;

/// <summary>The examples of RFC 5545 (September 2009), section 3.8.5.3, "Recurrence Rule", pages 123 to 132, with the dates the RFC lists.</summary>
public class Rfc5545RecurrenceTests
{
    private static readonly DateTimeZone NewYork = DateTimeZoneProviders.Tzdb["America/New_York"];

    /// <summary>Name, DTSTART, further lines, last day looked at, and the dates as "year-month: days".</summary>
    public static TheoryData<string, string, string, string, string> Examples => new()
    {
        { "Daily for 10 occurrences", "19970902T090000", "RRULE:FREQ=DAILY;COUNT=10", "1998-12-31", "1997-09: 2-11" },
        { "Daily until December 24, 1997", "19970902T090000", "RRULE:FREQ=DAILY;UNTIL=19971224T000000Z", "1998-12-31", "1997-09: 2-30; 1997-10: 1-31; 1997-11: 1-30; 1997-12: 1-23" },
        { "Every other day", "19970902T090000", "RRULE:FREQ=DAILY;INTERVAL=2", "1997-12-03", "1997-09: 2,4,6,8,10,12,14,16,18,20,22,24,26,28,30; 1997-10: 2,4,6,8,10,12,14,16,18,20,22,24,26,28,30; 1997-11: 1,3,5,7,9,11,13,15,17,19,21,23,25,27,29; 1997-12: 1,3" },
        { "Every 10 days, 5 occurrences", "19970902T090000", "RRULE:FREQ=DAILY;INTERVAL=10;COUNT=5", "1998-12-31", "1997-09: 2,12,22; 1997-10: 2,12" },
        { "Every day in January, for 3 years (yearly)", "19980101T090000", "RRULE:FREQ=YEARLY;UNTIL=20000131T140000Z;BYMONTH=1;BYDAY=SU,MO,TU,WE,TH,FR,SA", "2001-12-31", "1998-01: 1-31; 1999-01: 1-31; 2000-01: 1-31" },
        { "Every day in January, for 3 years (daily)", "19980101T090000", "RRULE:FREQ=DAILY;UNTIL=20000131T140000Z;BYMONTH=1", "2001-12-31", "1998-01: 1-31; 1999-01: 1-31; 2000-01: 1-31" },
        { "Weekly for 10 occurrences", "19970902T090000", "RRULE:FREQ=WEEKLY;COUNT=10", "1998-12-31", "1997-09: 2,9,16,23,30; 1997-10: 7,14,21,28; 1997-11: 4" },
        { "Weekly until December 24, 1997", "19970902T090000", "RRULE:FREQ=WEEKLY;UNTIL=19971224T000000Z", "1998-12-31", "1997-09: 2,9,16,23,30; 1997-10: 7,14,21,28; 1997-11: 4,11,18,25; 1997-12: 2,9,16,23" },
        { "Every other week", "19970902T090000", "RRULE:FREQ=WEEKLY;INTERVAL=2;WKST=SU", "1998-02-17", "1997-09: 2,16,30; 1997-10: 14,28; 1997-11: 11,25; 1997-12: 9,23; 1998-01: 6,20; 1998-02: 3,17" },
        { "Weekly on Tuesday and Thursday for five weeks (until)", "19970902T090000", "RRULE:FREQ=WEEKLY;UNTIL=19971007T000000Z;WKST=SU;BYDAY=TU,TH", "1998-12-31", "1997-09: 2,4,9,11,16,18,23,25,30; 1997-10: 2" },
        { "Weekly on Tuesday and Thursday for five weeks (count)", "19970902T090000", "RRULE:FREQ=WEEKLY;COUNT=10;WKST=SU;BYDAY=TU,TH", "1998-12-31", "1997-09: 2,4,9,11,16,18,23,25,30; 1997-10: 2" },
        { "Every other week on Monday, Wednesday, and Friday until December 24, 1997", "19970901T090000", "RRULE:FREQ=WEEKLY;INTERVAL=2;UNTIL=19971224T000000Z;WKST=SU;BYDAY=MO,WE,FR", "1998-12-31", "1997-09: 1,3,5,15,17,19,29; 1997-10: 1,3,13,15,17,27,29,31; 1997-11: 10,12,14,24,26,28; 1997-12: 8,10,12,22" },
        { "Every other week on Tuesday and Thursday, for 8 occurrences", "19970902T090000", "RRULE:FREQ=WEEKLY;INTERVAL=2;COUNT=8;WKST=SU;BYDAY=TU,TH", "1998-12-31", "1997-09: 2,4,16,18,30; 1997-10: 2,14,16" },
        { "Monthly on the first Friday for 10 occurrences", "19970905T090000", "RRULE:FREQ=MONTHLY;COUNT=10;BYDAY=1FR", "1999-12-31", "1997-09: 5; 1997-10: 3; 1997-11: 7; 1997-12: 5; 1998-01: 2; 1998-02: 6; 1998-03: 6; 1998-04: 3; 1998-05: 1; 1998-06: 5" },
        { "Monthly on the first Friday until December 24, 1997", "19970905T090000", "RRULE:FREQ=MONTHLY;UNTIL=19971224T000000Z;BYDAY=1FR", "1998-12-31", "1997-09: 5; 1997-10: 3; 1997-11: 7; 1997-12: 5" },
        { "Every other month on the first and last Sunday of the month for 10 occurrences", "19970907T090000", "RRULE:FREQ=MONTHLY;INTERVAL=2;COUNT=10;BYDAY=1SU,-1SU", "1999-12-31", "1997-09: 7,28; 1997-11: 2,30; 1998-01: 4,25; 1998-03: 1,29; 1998-05: 3,31" },
        { "Monthly on the second-to-last Monday of the month for 6 months", "19970922T090000", "RRULE:FREQ=MONTHLY;COUNT=6;BYDAY=-2MO", "1999-12-31", "1997-09: 22; 1997-10: 20; 1997-11: 17; 1997-12: 22; 1998-01: 19; 1998-02: 16" },
        { "Monthly on the third-to-the-last day of the month", "19970928T090000", "RRULE:FREQ=MONTHLY;BYMONTHDAY=-3", "1998-02-28", "1997-09: 28; 1997-10: 29; 1997-11: 28; 1997-12: 29; 1998-01: 29; 1998-02: 26" },
        { "Monthly on the 2nd and 15th of the month for 10 occurrences", "19970902T090000", "RRULE:FREQ=MONTHLY;COUNT=10;BYMONTHDAY=2,15", "1999-12-31", "1997-09: 2,15; 1997-10: 2,15; 1997-11: 2,15; 1997-12: 2,15; 1998-01: 2,15" },
        { "Monthly on the first and last day of the month for 10 occurrences", "19970930T090000", "RRULE:FREQ=MONTHLY;COUNT=10;BYMONTHDAY=1,-1", "1999-12-31", "1997-09: 30; 1997-10: 1,31; 1997-11: 1,30; 1997-12: 1,31; 1998-01: 1,31; 1998-02: 1" },
        { "Every 18 months on the 10th thru 15th of the month for 10 occurrences", "19970910T090000", "RRULE:FREQ=MONTHLY;INTERVAL=18;COUNT=10;BYMONTHDAY=10,11,12,13,14,15", "2002-12-31", "1997-09: 10-15; 1999-03: 10-13" },
        { "Every Tuesday, every other month", "19970902T090000", "RRULE:FREQ=MONTHLY;INTERVAL=2;BYDAY=TU", "1998-03-31", "1997-09: 2,9,16,23,30; 1997-11: 4,11,18,25; 1998-01: 6,13,20,27; 1998-03: 3,10,17,24,31" },
        { "Yearly in June and July for 10 occurrences", "19970610T090000", "RRULE:FREQ=YEARLY;COUNT=10;BYMONTH=6,7", "2003-12-31", "1997-06: 10; 1997-07: 10; 1998-06: 10; 1998-07: 10; 1999-06: 10; 1999-07: 10; 2000-06: 10; 2000-07: 10; 2001-06: 10; 2001-07: 10" },
        { "Every other year on January, February, and March for 10 occurrences", "19970310T090000", "RRULE:FREQ=YEARLY;INTERVAL=2;COUNT=10;BYMONTH=1,2,3", "2005-12-31", "1997-03: 10; 1999-01: 10; 1999-02: 10; 1999-03: 10; 2001-01: 10; 2001-02: 10; 2001-03: 10; 2003-01: 10; 2003-02: 10; 2003-03: 10" },
        { "Every third year on the 1st, 100th, and 200th day for 10 occurrences", "19970101T090000", "RRULE:FREQ=YEARLY;INTERVAL=3;COUNT=10;BYYEARDAY=1,100,200", "2008-12-31", "1997-01: 1; 1997-04: 10; 1997-07: 19; 2000-01: 1; 2000-04: 9; 2000-07: 18; 2003-01: 1; 2003-04: 10; 2003-07: 19; 2006-01: 1" },
        { "Every 20th Monday of the year", "19970519T090000", "RRULE:FREQ=YEARLY;BYDAY=20MO", "1999-12-31", "1997-05: 19; 1998-05: 18; 1999-05: 17" },
        { "Monday of week number 20", "19970512T090000", "RRULE:FREQ=YEARLY;BYWEEKNO=20;BYDAY=MO", "1999-12-31", "1997-05: 12; 1998-05: 11; 1999-05: 17" },
        { "Every Thursday in March", "19970313T090000", "RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=TH", "1999-12-31", "1997-03: 13,20,27; 1998-03: 5,12,19,26; 1999-03: 4,11,18,25" },
        { "Every Thursday, but only during June, July, and August", "19970605T090000", "RRULE:FREQ=YEARLY;BYDAY=TH;BYMONTH=6,7,8", "1999-12-31", "1997-06: 5,12,19,26; 1997-07: 3,10,17,24,31; 1997-08: 7,14,21,28; 1998-06: 4,11,18,25; 1998-07: 2,9,16,23,30; 1998-08: 6,13,20,27; 1999-06: 3,10,17,24; 1999-07: 1,8,15,22,29; 1999-08: 5,12,19,26" },
        { "Every Friday the 13th", "19970902T090000", "EXDATE;TZID=America/New_York:19970902T090000\nRRULE:FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13", "2000-12-31", "1998-02: 13; 1998-03: 13; 1998-11: 13; 1999-08: 13; 2000-10: 13" },
        { "The first Saturday that follows the first Sunday of the month", "19970913T090000", "RRULE:FREQ=MONTHLY;BYDAY=SA;BYMONTHDAY=7,8,9,10,11,12,13", "1998-06-30", "1997-09: 13; 1997-10: 11; 1997-11: 8; 1997-12: 13; 1998-01: 10; 1998-02: 7; 1998-03: 7; 1998-04: 11; 1998-05: 9; 1998-06: 13" },
        { "U.S. Presidential Election day", "19961105T090000", "RRULE:FREQ=YEARLY;INTERVAL=4;BYMONTH=11;BYDAY=TU;\n BYMONTHDAY=2,3,4,5,6,7,8", "2004-12-31", "1996-11: 5; 2000-11: 7; 2004-11: 2" },
        { "The third instance into the month of one of Tuesday, Wednesday, or Thursday, for the next 3 months", "19970904T090000", "RRULE:FREQ=MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3", "1998-12-31", "1997-09: 4; 1997-10: 7; 1997-11: 6" },
        { "The second-to-last weekday of the month", "19970929T090000", "RRULE:FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-2", "1998-03-31", "1997-09: 29; 1997-10: 30; 1997-11: 27; 1997-12: 30; 1998-01: 29; 1998-02: 26; 1998-03: 30" },
        { "WKST=MO", "19970805T090000", "RRULE:FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO", "1998-12-31", "1997-08: 5,10,19,24" },
        { "WKST=SU", "19970805T090000", "RRULE:FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU", "1998-12-31", "1997-08: 5,17,19,31" },
        { "An invalid date (February 30) is ignored", "20070115T090000", "RRULE:FREQ=MONTHLY;BYMONTHDAY=15,30;COUNT=5", "2008-12-31", "2007-01: 15,30; 2007-02: 15; 2007-03: 15,30" },
    };

    [Theory]
    [MemberData(nameof(Examples))]
    public void Dates_are_those_of_the_standard(string name, string start, string lines, string lastDay, string dates)
    {
        LocalDate last = NodaTime.Text.LocalDatePattern.Iso.Parse(lastDay).Value;
        Interval horizon = new(Instant.FromUtc(1996, 1, 1, 0, 0), last.PlusDays(1).AtStartOfDayInZone(NewYork).ToInstant());
        LocalDateTime[] expected = [.. Expected(dates).Select(d => d.At(new LocalTime(9, 0)))];
        Assert.Equal(expected, Starts(name, start, lines, horizon));
    }

    [Fact]
    public void A_late_horizon_gives_the_same_dates_as_an_early_one()
    {
        // The rules without COUNT jump to the horizon; what they give there must not depend on it.
        foreach (ITheoryDataRow row in Examples)
        {
            object?[] data = row.GetData();
            Instant end = Instant.FromUtc(1999, 1, 1, 0, 0);
            LocalDateTime[] all = Starts((string)data[0]!, (string)data[1]!, (string)data[2]!, new Interval(Instant.FromUtc(1996, 1, 1, 0, 0), end));
            Instant late = Instant.FromUtc(1997, 11, 20, 0, 0);
            LocalDateTime[] some = Starts((string)data[0]!, (string)data[1]!, (string)data[2]!, new Interval(late, end));
            Assert.Equal(all.Where(t => t.InZoneLeniently(NewYork).ToInstant() >= late), some);
        }
    }

    // The RFC prints UNTIL=19970902T170000Z, which is 1 p.m. in New York and would end the list after 12:00; the list it gives needs 5 p.m. there.
    [Fact]
    public void Every_3_hours_from_9_to_5() =>
        Assert.Equal(["09:00", "12:00", "15:00"], Times("RRULE:FREQ=HOURLY;INTERVAL=3;UNTIL=19970902T210000Z"));

    [Fact]
    public void Every_15_minutes_for_6_occurrences() =>
        Assert.Equal(["09:00", "09:15", "09:30", "09:45", "10:00", "10:15"], Times("RRULE:FREQ=MINUTELY;INTERVAL=15;COUNT=6"));

    [Fact]
    public void Every_hour_and_a_half_for_4_occurrences() =>
        Assert.Equal(["09:00", "10:30", "12:00", "13:30"], Times("RRULE:FREQ=MINUTELY;INTERVAL=90;COUNT=4"));

    [Theory]
    [InlineData("RRULE:FREQ=DAILY;BYHOUR=9,10,11,12,13,14,15,16;BYMINUTE=0,20,40")]
    [InlineData("RRULE:FREQ=MINUTELY;INTERVAL=20;BYHOUR=9,10,11,12,13,14,15,16")]
    public void Every_20_minutes_from_9_to_4_40_every_day(string rule)
    {
        string[] day = [.. Enumerable.Range(9, 8).SelectMany(h => new[] { 0, 20, 40 }.Select(m => $"{h:00}:{m:00}"))];
        Assert.Equal([.. day, .. day], Times(rule));
    }

    private static string[] Times(string rule)
    {
        Interval horizon = new(Instant.FromUtc(1997, 9, 1, 4, 0), Instant.FromUtc(1997, 9, 4, 4, 0));
        return [.. Starts("times", "19970902T090000", rule, horizon).Select(t => t.ToString("HH:mm", CultureInfo.InvariantCulture))];
    }

    private static LocalDateTime[] Starts(string name, string start, string lines, Interval horizon)
    {
        string text = $"BEGIN:VCALENDAR\nVERSION:2.0\nBEGIN:VEVENT\nUID:1\nSUMMARY:{name.Replace(",", "\\,", StringComparison.Ordinal)}\nDTSTART;TZID=America/New_York:{start}\nDURATION:PT5M\n{lines}\nEND:VEVENT\nEND:VCALENDAR\n";
        ReadResult<BusyTimes> result = BusyFile.Parse("rfc.ics", text, DateTimeZone.Utc, horizon);
        Assert.True(result.IsOk, string.Join('\n', result.Problems));
        Assert.All(result.Value!.Busy, b => Assert.Equal(Duration.FromMinutes(5), b.Duration));
        return [.. result.Value!.Busy.Select(b => b.Start.InZone(NewYork).LocalDateTime)];
    }

    private static IEnumerable<LocalDate> Expected(string dates)
    {
        foreach (string month in dates.Split("; "))
        {
            int year = int.Parse(month[..4], CultureInfo.InvariantCulture);
            int number = int.Parse(month[5..7], CultureInfo.InvariantCulture);
            foreach (string day in month[9..].Split(','))
            {
                int[] ends = [.. day.Split('-').Select(d => int.Parse(d, CultureInfo.InvariantCulture))];
                for (int d = ends[0]; d <= ends[^1]; d++)
                {
                    yield return new LocalDate(year, number, d);
                }
            }
        }
    }
}
