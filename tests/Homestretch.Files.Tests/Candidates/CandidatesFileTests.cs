using System.Collections.Immutable;
using System.Text;

using CsCheck;

using Homestretch.Core.Planning.Calendar;
using Homestretch.Files.Candidates;
using Homestretch.Files.FreeTimes;

using NodaTime;

namespace Homestretch.Files.Tests.Candidates;

/// <summary>The files under cases/candidates, and what good rows mean.</summary>
public class CandidatesFileTests
{
    private static readonly DateTimeZone London = DateTimeZoneProviders.Tzdb["Europe/London"];

    private static readonly SheetDefaults Strict = new(null, null, new(2026, 11, 28), new(2027, 5, 29));

    private static readonly SheetDefaults Given = Strict with { Zone = London, ExamDay = new LocalDate(2026, 12, 16) };

    public static TheoryData<string> Malformed => TestFiles.CaseNames("candidates");

    [Theory]
    [MemberData(nameof(Malformed))]
    public void A_malformed_sheet_gives_clear_problems(string name)
    {
        string path = Path.Combine(TestFiles.Cases("candidates"), name + ".csv");
        ReadResult<CandidatesSheet> result = CandidatesFile.Parse(path, File.ReadAllBytes(path), name == "rows" ? Strict : Given);
        ImmutableArray<FileProblem> problems = [.. result.Problems, .. result.Value?.Rows.SelectMany(r => r.Problems) ?? []];
        Assert.All(problems, p => Assert.Equal(path, p.File));
        ProblemChecks.Match(problems, Path.ChangeExtension(path, ".expected.txt"));
    }

    [Fact]
    public void A_bad_row_does_not_spoil_the_others()
    {
        CandidatesSheet sheet = Parse("candidate,free\nAda Fell,never\nBo Fell,Mon 19:00-20:00\n");

        Assert.Equal([false, true], sheet.Rows.Select(r => r.Problems.IsEmpty));
        Assert.Null(sheet.Rows[0].Free);
        Assert.Equal("Bo Fell", sheet.Rows[1].Candidate);
        Assert.Equal(Given.ExamDay, sheet.Rows[1].ExamDay);
        Assert.Equal(3, sheet.Rows[1].Line);
    }

    [Theory]
    [InlineData("Mon Wed Fri 19:00-20:30; Sat 9:00-12:00", "Mon 19:00-20:30, Wed 19:00-20:30, Fri 19:00-20:30, Sat 09:00-12:00")]
    [InlineData("Monday, Wednesday and Friday from 19:00 to 20:30", "Mon 19:00-20:30, Wed 19:00-20:30, Fri 19:00-20:30")]
    [InlineData("Mon to Wed 12:15 – 12:45, 19:30-20:30", "Mon 12:15-12:45, Tue 12:15-12:45, Wed 12:15-12:45, Mon 19:30-20:30, Tue 19:30-20:30, Wed 19:30-20:30")]
    [InlineData("Fri-Mon 8:00-9:00", "Fri 08:00-09:00, Sat 08:00-09:00, Sun 08:00-09:00, Mon 08:00-09:00")]
    [InlineData("sat 22:00-24:00", "Sat 22:00-00:00")]
    [InlineData("Mon 7:00-8:00 Tue 7:00-9:00", "Mon 07:00-08:00, Tue 07:00-09:00")]
    [InlineData("None", "")]
    public void Free_time_is_read_as_people_write_it(string words, string windows)
    {
        CandidateRow row = Assert.Single(Parse($"candidate;free\nAda Fell;\"{words}\"\n").Rows);

        Assert.Empty(row.Problems);
        Assert.Equal(windows, string.Join(", ", row.Free!.Weekly.Select(w => $"{w.Day.ToString()[..3]} {w.Start:HH':'mm}-{w.End:HH':'mm}")));
    }

    [Fact]
    public void A_row_says_its_own_day_zone_limit_and_days_off()
    {
        CandidateRow row = Assert.Single(Parse("name,exam date,free time,time zone,daily cap,away,remark\nAda Fell,19.12.2026,Mon 19:00-20:00,Europe/Dublin,2.5 h,\"2026-12-05; 2026-12-12 to 2026-12-13\",hello\n").Rows);

        Assert.Empty(row.Problems);
        Assert.Equal(new LocalDate(2026, 12, 19), row.ExamDay);
        Assert.Equal(("Europe/Dublin", 150), (row.Free!.Zone.Id, row.Free.DailyCapMinutes));
        Assert.Equal([new DateInterval(new(2026, 12, 5), new(2026, 12, 5)), new DateInterval(new(2026, 12, 12), new(2026, 12, 13))], row.Free.DaysOff);
    }

    [Fact]
    public void Names_that_look_like_code_or_formulas_stay_text()
    {
        CandidatesSheet sheet = Parse("candidate,free\n<script>alert(1)</script>,none\n\"=HYPERLINK(\"\"http://example.org\"\")\",none\n'=1+1,none\n");

        Assert.Equal(["<script>alert(1)</script>", "=HYPERLINK(\"http://example.org\")", "=1+1"], sheet.Rows.Select(r => r.Candidate));
    }

    [Fact]
    public void More_rows_than_are_imported_at_once_are_refused()
    {
        string rows = string.Concat(Enumerable.Range(1, CandidatesFile.MostRows + 1).Select(i => $"Person {i},none\n"));
        FileProblem problem = Assert.Single(CandidatesFile.Parse("room.csv", Encoding.UTF8.GetBytes("candidate,free\n" + rows), Given).Problems);

        Assert.Equal(CandidatesFile.MostRows + 2, problem.Line);
        Assert.Contains("501 rows; at most 500", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_demos_room_can_be_read()
    {
        ReadResult<CandidatesSheet> room = CandidatesFile.Parse("candidates.csv", File.ReadAllBytes(TestFiles.Demo("candidates.csv")), Given);

        Assert.Equal(60, room.Value!.Rows.Length);
        Assert.All(room.Value.Rows, r => Assert.Empty(r.Problems));
    }

    [Fact]
    public void Free_time_that_was_written_is_read_as_the_same()
    {
        Gen<(LocalTime, LocalTime)> span = Gen.Select(Gen.Int[0, 1438], Gen.Int[1, 1440]).Where(p => p.Item2 > p.Item1)
            .Select(p => (LocalTime.FromMinutesSinceMidnight(p.Item1), LocalTime.FromMinutesSinceMidnight(p.Item2 % 1440)));
        Gen<LocalDate> date = Gen.Int[0, 400].Select(d => new LocalDate(2026, 11, 28).PlusDays(d));
        Gen<FreeTime> free = Gen.Select(
            Gen.OneOf(Gen.Const("Europe/London"), Gen.Const("America/New_York")),
            Gen.Select(Gen.Int[1, 7], span, (d, s) => new WeeklyWindow((IsoDayOfWeek)d, s.Item1, s.Item2)).Array[0, 6],
            Gen.Select(date, Gen.Int[0, 365], (d, n) => new DateInterval(d, d.PlusDays(n))).Array[0, 3],
            Gen.Select(date, span, (d, s) => new ExtraWindow(d, s.Item1, s.Item2)).Array[0, 3],
            Gen.Int[1, 1440],
            (zone, weekly, off, extra, cap) => new FreeTime(DateTimeZoneProviders.Tzdb[zone], [.. weekly], [.. off], [.. extra], cap));
        free.Sample(
            written =>
            {
                FreeTime read = FreeTimeFile.Parse("free.yaml", FreeTimeFile.Write(written)).Value!;
                return read.Zone.Equals(written.Zone) && read.DailyCapMinutes == written.DailyCapMinutes
                    && read.Weekly.SequenceEqual(written.Weekly) && read.DaysOff.SequenceEqual(written.DaysOff) && read.Extra.SequenceEqual(written.Extra);
            },
            iter: 500);
    }

    private static CandidatesSheet Parse(string text) => CandidatesFile.Parse("room.csv", Encoding.UTF8.GetBytes(text), Given).Value!;
}
