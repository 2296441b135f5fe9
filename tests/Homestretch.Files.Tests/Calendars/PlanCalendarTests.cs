using System.Collections.Immutable;
using System.Text;

using Homestretch.Core.Forecasting;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Replanning;
using Homestretch.Core.Planning.Resources;
using Homestretch.Files.Calendars;
using Homestretch.Files.Documents;
using Homestretch.Files.Tests.Plans;

using Ical.Net.CalendarComponents;

using NodaTime;

namespace Homestretch.Files.Tests.Calendars;

/// <summary>The written plan, read back with Ical.Net.</summary>
public class PlanCalendarTests
{
    private const string ExamName = "Certificate for Registrars; small, and \\ odd museums";

    private static readonly DateTimeZone London = DateTimeZoneProviders.Tzdb["Europe/London"];
    private static readonly Instant Stamp = Instant.FromUtc(2026, 11, 25, 8, 0);

    private static readonly StudyPlan First = Plan(
        ("Cataloguing-1", new LocalDateTime(2026, 11, 25, 18, 30), 0, BlockPurpose.Learn, "Borderline and heavy: \"terms\" first; then records, the rest later.\nSecond line."),
        ("Cataloguing-2", new LocalDateTime(2026, 11, 26, 18, 30), 0, BlockPurpose.Practise, string.Concat(Enumerable.Repeat("Übung 🏺 macht ", 20))),
        ("Loans-1", new LocalDateTime(2026, 11, 27, 18, 30), 4, BlockPurpose.Quiz, "Because."),
        ("Loans-2", new LocalDateTime(2026, 12, 14, 18, 30), 4, BlockPurpose.Review, "Light review."));

    [Fact]
    public void Every_block_is_an_event_with_its_times_words_reason_and_alarm()
    {
        List<CalendarEvent> events = Events(PlanCalendar.Write(First, "Mara Venn", ExamName, Stamp));
        Assert.Equal(5, events.Count);
        Assert.Equal(["Learn: Cataloguing", "Practise: Cataloguing", "Short quiz: Loans and insurance", "Light review: Loans and insurance", "Exam: " + ExamName], events.Select(e => e.Summary));
        for (int i = 0; i < First.Blocks.Length; i++)
        {
            StudyBlock block = First.Blocks[i];
            Assert.Equal(block.Start.ToDateTimeUtc(), events[i].DtStart!.AsUtc);
            Assert.Equal(block.End.ToDateTimeUtc(), events[i].DtEnd!.AsUtc);
            Assert.Equal(block.Reason, events[i].Description);
            Assert.Equal(Stamp.ToDateTimeUtc(), events[i].DtStamp!.AsUtc);
            Assert.Equal(Stamp.ToDateTimeUtc(), events[i].LastModified!.AsUtc);
            Alarm alarm = Assert.Single(events[i].Alarms);
            Assert.Equal("DISPLAY", alarm.Action);
            Assert.Equal(-10, alarm.Trigger!.Duration!.Value.Minutes);
            Assert.Equal(events[i].Summary, alarm.Description);
        }
    }

    [Fact]
    public void A_kept_document_gives_the_same_calendar_and_asks_to_be_looked_at_again()
    {
        CandidateReport report = SampleReports.ThreeWeeks;
        PlanDocument kept = DocumentJson.ReadPlan(DocumentJson.Write(PlanDocument.Of(report)));

        string calendar = PlanCalendar.Write(kept, Stamp);

        Assert.Contains("REFRESH-INTERVAL;VALUE=DURATION:PT1H\r\n", calendar, StringComparison.Ordinal);
        Assert.Equal(
            PlanCalendar.Write(report.Plan!, report.Candidate, report.Standing.Exam.Name, Stamp),
            calendar.Replace("REFRESH-INTERVAL;VALUE=DURATION:PT1H\r\n", "", StringComparison.Ordinal));
        Assert.NotEmpty(kept.Blocks);
    }

    [Fact]
    public void The_material_of_a_block_stands_before_its_reason_also_in_a_kept_document()
    {
        CandidateReport report = SampleReports.ThreeWeeks;
        StudyResource book = new("Loans; from A to Z", ResourceKind.Teaches, [.. report.Standing.Exam.Topics.Select(t => t.Name)], null, null, "shelf 3");
        report = report with { Material = MaterialFinder.Find(report.Plan!, report.Standing.Exam, [book], []) };

        List<CalendarEvent> events = Events(PlanCalendar.Write(report.Plan!, report.Candidate, report.Standing.Exam.Name, Stamp, report.Material));

        int learn = report.Plan!.Blocks.Select(b => b.Purpose).ToList().IndexOf(BlockPurpose.Learn);
        int quiz = report.Plan.Blocks.Select(b => b.Purpose).ToList().IndexOf(BlockPurpose.Quiz);
        Assert.Equal($"With Loans; from A to Z (shelf 3)\n{report.Plan.Blocks[learn].Reason}", events[learn].Description);
        Assert.Equal(report.Plan.Blocks[quiz].Reason, events[quiz].Description);
        PlanDocument kept = DocumentJson.ReadPlan(DocumentJson.Write(PlanDocument.Of(report)));
        Assert.Equal(events.Select(e => e.Description), Events(PlanCalendar.Write(kept, Stamp)).Select(e => e.Description));
    }

    [Fact]
    public void The_exam_is_a_whole_day_without_alarm()
    {
        CalendarEvent exam = Events(PlanCalendar.Write(First, "Mara Venn", ExamName, Stamp))[^1];
        Assert.True(exam.IsAllDay);
        Assert.Equal(new DateOnly(2026, 12, 16), exam.DtStart!.Date);
        Assert.Equal(new DateOnly(2026, 12, 17), exam.DtEnd!.Date);
        Assert.Empty(exam.Alarms);
    }

    [Fact]
    public void A_later_file_moves_events_and_does_not_double_them()
    {
        StudyPlan moved = Plan(
            ("Cataloguing-1", new LocalDateTime(2026, 11, 28, 10, 0), 0, BlockPurpose.Learn, "Moved."),
            ("Cataloguing-2", new LocalDateTime(2026, 11, 26, 18, 30), 0, BlockPurpose.Practise, "Kept."),
            ("Pests-1", new LocalDateTime(2026, 11, 29, 18, 30), 1, BlockPurpose.Learn, "New."));
        List<CalendarEvent> before = Events(PlanCalendar.Write(First, "Mara Venn", ExamName, Stamp));
        List<CalendarEvent> after = Events(PlanCalendar.Write(moved, "Mara Venn", ExamName, Stamp + Duration.FromMinutes(5)));
        Assert.Equal(before[0].Uid, after[0].Uid);
        Assert.Equal(before[1].Uid, after[1].Uid);
        Assert.Equal(before[^1].Uid, after[^1].Uid);
        Assert.DoesNotContain(after[2].Uid, before.Select(e => e.Uid));
        Assert.All(after, e => Assert.True(e.Sequence > before[0].Sequence));
        Assert.Equal(before.Count, before.Select(e => e.Uid).Distinct().Count());
    }

    [Fact]
    public void A_plan_that_goes_on_moves_the_events_it_moves_and_cancels_those_that_are_gone()
    {
        StudyPlan first = SampleReports.ThreeWeeks.Plan!;
        StudyPlan next = ReplannedReports.AWeekLater.Plan!;
        Dictionary<string, CalendarEvent> before = Events(PlanCalendar.Write(first, "Mara Venn", ExamName, Stamp)).ToDictionary(e => e.Uid!);
        List<CalendarEvent> after = Events(PlanCalendar.Write(next, "Mara Venn", ExamName, Stamp + Duration.FromDays(7)));
        Dictionary<string, CalendarEvent> last = after.ToDictionary(e => e.Uid!);
        string Uid(string block) => before.Keys.Single(u => before[u].DtStart!.AsUtc == first.Blocks.Single(b => b.Id == block).Start.ToDateTimeUtc());

        BlockRevision[] moved = [.. next.Revision!.Changes.Where(c => c.Kind is RevisionKind.Moved or RevisionKind.MadeUp)];
        Assert.NotEmpty(moved);
        Assert.All(moved, c => Assert.Equal(c.After!.Start.ToDateTimeUtc(), last[Uid(c.Before!.Id)].DtStart!.AsUtc));

        string[] gone = [.. next.Revision.Earlier.Where(b => b.Fate != BlockFate.Done).Select(b => Uid(b.Id)).Order(StringComparer.Ordinal)];
        Assert.NotEmpty(gone);
        Assert.Equal(gone, after.Where(e => e.Status == "CANCELLED").Select(e => e.Uid!).Order(StringComparer.Ordinal));

        // What was done on its day stays in the calendar as it was; everything else is newer than before, the exam's day too.
        Assert.All(next.Revision.Earlier.Where(b => b.Fate == BlockFate.Done), b => Assert.DoesNotContain(Uid(b.Id), last.Keys));
        Assert.All(before.Keys.Intersect(last.Keys), u => Assert.True(last[u].Sequence > before[u].Sequence));
        Assert.Equal(before.Values.Single(e => e.IsAllDay).Uid, after.Single(e => e.IsAllDay).Uid);
        Assert.Equal(next.Blocks.Length + gone.Length + 1, after.Count);
    }

    [Fact]
    public void Other_candidates_exams_and_exam_days_have_other_events()
    {
        StudyPlan postponed = First with { ExamDay = First.ExamDay.PlusDays(7) };
        string[] uids =
        [
            Events(PlanCalendar.Write(First, "Mara Venn", ExamName, Stamp))[0].Uid!,
            Events(PlanCalendar.Write(First, "Ines Harrow", ExamName, Stamp))[0].Uid!,
            Events(PlanCalendar.Write(First, "Mara Venn", "Another exam", Stamp))[0].Uid!,
            Events(PlanCalendar.Write(postponed, "Mara Venn", ExamName, Stamp))[0].Uid!,
        ];
        Assert.Equal(4, uids.Distinct().Count());
        Assert.All(uids, u => Assert.True(PlanCalendar.IsOwn(u)));
    }

    [Fact]
    public void Lines_end_with_CR_LF_and_hold_at_most_75_octets_and_no_broken_letter()
    {
        string text = PlanCalendar.Write(First, "Mara Venn", ExamName, Stamp);
        Assert.EndsWith("END:VCALENDAR\r\n", text, StringComparison.Ordinal);
        foreach (string line in text[..^2].Split("\r\n"))
        {
            Assert.DoesNotContain('\n', line);
            Assert.DoesNotContain('\r', line);
            Assert.InRange(Encoding.UTF8.GetByteCount(line), 1, 75);
            Assert.DoesNotContain('\ufffd', Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(line)));
        }
    }

    [Fact]
    public void The_same_plan_at_the_same_moment_gives_the_same_text() =>
        Assert.Equal(PlanCalendar.Write(First, "Mara Venn", ExamName, Stamp), PlanCalendar.Write(First, "Mara Venn", ExamName, Stamp));

    [Fact]
    public void A_block_over_a_clock_change_keeps_its_elapsed_length()
    {
        // Europe/London, 25 October 2026: 02:00 becomes 01:00, so that 01:50 to 01:20 is half an hour.
        Instant start = Instant.FromUtc(2026, 10, 25, 0, 50);
        StudyBlock block = new("Pests-1", start.InZone(London), (start + Duration.FromMinutes(30)).InZone(London), TestExams.Registrar.Topics[1], BlockPurpose.Learn, "Night owl.");
        CalendarEvent written = Events(PlanCalendar.Write(First with { Blocks = [block] }, "Mara Venn", ExamName, Stamp))[0];
        Assert.Equal(TimeSpan.FromMinutes(30), written.DtEnd!.AsUtc - written.DtStart!.AsUtc);
    }

    [Fact]
    public void A_plan_without_blocks_still_holds_the_exam() => Assert.Single(Events(PlanCalendar.Write(First with { Blocks = [] }, "Mara Venn", ExamName, Stamp)));

    [Fact]
    public void Our_own_blocks_in_a_persons_calendar_do_not_make_them_busy()
    {
        string text = PlanCalendar.Write(First, "Mara Venn", ExamName, Stamp);
        Interval horizon = new(Instant.FromUtc(2026, 11, 1, 0, 0), Instant.FromUtc(2027, 1, 1, 0, 0));
        ReadResult<BusyTimes> result = BusyFile.Parse("own.ics", text, London, horizon);
        Assert.True(result.IsOk, string.Join('\n', result.Problems));
        Assert.Empty(result.Value!.Busy);
    }

    [Fact]
    public void The_written_times_are_those_another_reader_of_ours_finds()
    {
        // The same events under foreign names do make a person busy, at exactly the planned times.
        string text = PlanCalendar.Write(First, "Mara Venn", ExamName, Stamp).Replace("@homestretch.invalid", "@elsewhere.invalid", StringComparison.Ordinal);
        Interval horizon = new(Instant.FromUtc(2026, 11, 1, 0, 0), Instant.FromUtc(2027, 1, 1, 0, 0));
        ReadResult<BusyTimes> result = BusyFile.Parse("own.ics", text, London, horizon);
        Assert.True(result.IsOk, string.Join('\n', result.Problems));
        Assert.Equal(First.Blocks.Select(b => new Interval(b.Start.ToInstant(), b.End.ToInstant())), result.Value!.Busy[..^1]);
        Assert.Equal(new Interval(Instant.FromUtc(2026, 12, 16, 0, 0), Instant.FromUtc(2026, 12, 17, 0, 0)), result.Value!.Busy[^1]);
    }

    private static List<CalendarEvent> Events(string text) => [.. Ical.Net.Calendar.Load(text)!.Events];

    private static StudyPlan Plan(params (string Id, LocalDateTime Start, int Topic, BlockPurpose Purpose, string Reason)[] blocks) => new(
        Policy.Optimised,
        Stamp.InZone(London),
        new LocalDate(2026, 12, 16),
        London,
        [],
        [],
        [],
        [.. blocks.Select(b => new StudyBlock(b.Id, b.Start.InZoneStrictly(London), b.Start.PlusMinutes(40).InZoneStrictly(London), TestExams.Registrar.Topics[b.Topic], b.Purpose, b.Reason))],
        600,
        ImmutableArray<string>.Empty,
        new ScoreUncertainty(1, 0, 0, 0, 1));
}
