using System.Text;

using CsCheck;

using Homestretch.Files.Calendars;
using Homestretch.Files.Evidences;
using Homestretch.Files.StudyLogs;

using NodaTime;

namespace Homestretch.Files.Tests;

/// <summary>Whatever a file holds, reading it gives a value or problems, never an exception.</summary>
public class MutationTests
{
    private static readonly byte[] Csv = File.ReadAllBytes(Path.Combine(TestFiles.Cases("evidence-good"), "mixture.csv"));

    private static readonly byte[] Log = File.ReadAllBytes(Path.Combine(TestFiles.Cases("study-log-good"), "same-day.csv"));

    private static readonly byte[] Ics = Encoding.UTF8.GetBytes(
        """
        BEGIN:VCALENDAR
        VERSION:2.0
        BEGIN:VTIMEZONE
        TZID:Own
        BEGIN:STANDARD
        DTSTART:19961027T020000
        TZOFFSETFROM:+0100
        TZOFFSETTO:+0000
        RRULE:FREQ=YEARLY;BYMONTH=10;BYDAY=-1SU
        END:STANDARD
        BEGIN:DAYLIGHT
        DTSTART:19970330T010000
        TZOFFSETFROM:+0000
        TZOFFSETTO:+0100
        RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=-1SU;UNTIL=20401231T000000Z
        END:DAYLIGHT
        END:VTIMEZONE
        BEGIN:VEVENT
        UID:1
        SEQUENCE:3
        DTSTART;TZID=Own:20261103T193000
        DTEND;TZID=Europe/London:20261103T213000
        RRULE:FREQ=WEEKLY;INTERVAL=2;COUNT=10;BYDAY=TU,TH;WKST=SU
        EXDATE;TZID=Own:20261117T193000
        RDATE;VALUE=PERIOD:20261118T193000Z/PT2H
        END:VEVENT
        BEGIN:VEVENT
        UID:1
        RECURRENCE-ID;RANGE=THISANDFUTURE:20261201T193000Z
        DTSTART:20261202T193000
        DURATION:P1DT2H30M
        END:VEVENT
        BEGIN:VEVENT
        UID:2
        DTSTART;VALUE=DATE:20260205
        RRULE:FREQ=MONTHLY;BYMONTHDAY=-1,5;BYSETPOS=1;UNTIL=20271231
        END:VEVENT
        BEGIN:VEVENT
        UID:3
        DTSTART:20261125T090000Z
        DURATION:PT15M
        RRULE:FREQ=HOURLY;INTERVAL=5;BYHOUR=8,9,10;BYMINUTE=0,30
        END:VEVENT
        END:VCALENDAR

        """);

    // Pieces that mean something in one of the formats turn up more often than chance would have them.
    private static readonly Gen<byte[]> Piece = Gen.OneOf(
        Gen.Byte.Array[0, 4],
        Gen.OneOf([.. new[] { "\"", ",", ";", "\t", "\n", "\r\n", "=", "-", "%", "0", "9999999999", "2026", ":", "T", "Z", "P", "/", "\0", "é", "BEGIN:", "END:", "FREQ=SECONDLY", "INTERVAL=7", "\ufeff", "🏺" }.Select(s => Gen.Const(s))])
            .Select(s => Encoding.UTF8.GetBytes(s)));

    private static readonly Gen<(int At, int Cut, byte[] Put)[]> Changes = Gen.Select(Gen.Int[0, 100000], Gen.Int[0, 12], Piece).Array[1, 8];

    [Fact]
    public void A_changed_evidence_file_never_throws() => Changes.Sample(
        changes => Check(EvidenceFile.Parse("m.csv", Mutate(Csv, changes), TestExams.Registrar)), iter: 3000);

    [Fact]
    public void A_changed_study_log_never_throws() => Changes.Sample(
        changes => Check(StudyLogFile.ParseAll([("m.csv", Mutate(Log, changes))], TestExams.Registrar)), iter: 3000);

    [Fact]
    public void A_changed_calendar_never_throws()
    {
        Interval horizon = new(Instant.FromUtc(2026, 11, 20, 0, 0), Instant.FromUtc(2026, 12, 20, 0, 0));
        DateTimeZone zone = DateTimeZoneProviders.Tzdb["Australia/Lord_Howe"];
        Changes.Sample(
            changes =>
            {
                ReadResult<BusyTimes> result = BusyFile.Parse("m.ics", Encoding.UTF8.GetString(Mutate(Ics, changes)), zone, horizon);
                Check(result);
                if (result.Value is { } times)
                {
                    CheckDisjoint(times, horizon);
                }
            },
            iter: 2000);
    }

    [Fact]
    public void Random_bytes_never_throw() => Gen.Byte.Array[0, 300].Sample(
        bytes => Check(EvidenceFile.Parse("r.csv", bytes, TestExams.Registrar)), iter: 2000);

    private static void CheckDisjoint(BusyTimes times, Interval horizon)
    {
        Instant last = Instant.MinValue;
        foreach (Interval busy in times.Busy)
        {
            Assert.True(busy.Start > last && busy.End > busy.Start && busy.Start >= horizon.Start && busy.End <= horizon.End);
            last = busy.End;
        }
    }

    private static void Check<T>(ReadResult<T> result)
        where T : class
    {
        Assert.NotEqual(result.IsOk, result.Problems.Length > 0);
        Assert.InRange(result.Problems.Length, 0, 51);
        Assert.All(result.Problems, p => Assert.False(string.IsNullOrWhiteSpace(p.Message)));
    }

    private static byte[] Mutate(byte[] original, (int At, int Cut, byte[] Put)[] changes)
    {
        List<byte> bytes = [.. original];
        foreach ((int at, int cut, byte[] put) in changes)
        {
            int start = at % (bytes.Count + 1);
            bytes.RemoveRange(start, Math.Min(cut, bytes.Count - start));
            bytes.InsertRange(start, put);
        }

        return [.. bytes];
    }
}
