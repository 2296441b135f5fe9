using System.Collections.Immutable;

using CsCheck;

using Homestretch.Core.Planning.Calendar;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Core.Tests.Planning;

/// <summary>Block length, breaks, daily cap and light last days: common practice, no source. Clock changes: the time zone
/// database (London 2027-03-28 and 2026-10-25, New York 2027-03-14 and 2026-11-01, Lord Howe by half an hour 2026-10-04 and 2027-04-04,
/// Apia without 2011-12-30).</summary>
public sealed class SlotFinderTests
{
    // A Wednesday.
    private static readonly LocalDate _wednesday = new(2026, 11, 25);

    [Theory]
    [InlineData(24, new int[0])]
    [InlineData(25, new[] { 25 })]
    [InlineData(29, new[] { 25 })]
    [InlineData(60, new[] { 50 })] // as much as 2 x 25: fewer blocks
    [InlineData(70, new[] { 30, 30 })]
    [InlineData(110, new[] { 50, 50 })]
    [InlineData(65, new[] { 30, 25 })]
    [InlineData(135, new[] { 40, 40, 35 })]
    [InlineData(180, new[] { 50, 50, 50 })]
    [InlineData(240, new[] { 50, 50, 50, 50 })] // as much as 5 x 40
    public void FillsAStretchWithTheMostStudyMinutes(int minutes, int[] expected)
    {
        SlotSearch found = Find(Free(extra: [On(_wednesday, 9, 0, minutes)]), examIn: 10);

        Assert.Equal(expected, found.Slots.Select(s => s.Minutes));
        Assert.All(found.Slots, s => Assert.Equal(found.Slots[0].Window, s.Window));
    }

    [Fact]
    public void NoOtherFillOfAStretchHoldsMoreMinutesOrAsManyInFewerBlocks()
        => Gen.Int[0, 600].Sample(length =>
        {
            ImmutableArray<Slot> slots = Find(Free(extra: [On(_wednesday, 9, 0, length)], cap: 1440), examIn: 10).Slots;

            // Every total that some number of blocks of 25, 30, ... 50 minutes can have.
            (int Minutes, int Blocks) best = (0, 0);
            for (int blocks = 1; blocks <= 24; blocks++)
            {
                for (int minutes = 25 * blocks; minutes <= 50 * blocks; minutes += 5)
                {
                    if (minutes + ((blocks - 1) * 10) <= length && minutes > best.Minutes)
                    {
                        best = (minutes, blocks);
                    }
                }
            }

            Assert.Equal(best, (slots.Sum(s => s.Minutes), slots.Length));
            Assert.True(slots.IsEmpty || slots.Max(s => s.Minutes) - slots.Min(s => s.Minutes) <= 5, "as equal as can be");
        });

    [Fact]
    public void EveryRuleHoldsForAnyFreeTimeAndAnyBusyTime() => _cases.Sample(
        c =>
        {
            SlotSearch found = SlotFinder.Find(c.Free, c.Busy, c.From, c.ExamDay);
            ImmutableArray<Slot> slots = found.Slots;
            DateTimeZone zone = c.Free.Zone;
            foreach ((Slot first, Slot second) in slots.Zip(slots.Skip(1)))
            {
                Assert.True(second.Start >= first.End + Duration.FromMinutes(10), "a break lies between two slots");
                Assert.True(second.Window >= first.Window, "windows are numbered in order");
            }

            foreach (Slot slot in slots)
            {
                ZonedDateTime start = slot.Start.InZone(zone);
                Assert.InRange(slot.Minutes, 25, slot.LightOnly ? 30 : 50);
                Assert.Equal(0, slot.Minutes % 5);
                Assert.Equal(0, start.TimeOfDay.NanosecondOfDay % (5 * NodaConstants.NanosecondsPerMinute));
                Assert.True(slot.Start >= c.From.ToInstant(), "not before the start");
                Assert.Equal(start.Date, slot.Date);
                Assert.True(slot.End <= EveningBefore(c.ExamDay, zone), "done by 20:00 on the day before the exam");
                Assert.DoesNotContain(c.Busy, b => b.Start < b.End && b.Start < slot.End && slot.Start < b.End);
                Assert.Equal(slot.Date >= FirstLightDay(c.From.WithZone(zone).Date, c.ExamDay), slot.LightOnly);
                for (Instant minute = slot.Start; minute < slot.End; minute += Duration.FromMinutes(1))
                {
                    // In the hour that comes twice a window runs on from its first start to its last end.
                    bool secondTime = zone.MapLocal(minute.InZone(zone).LocalDateTime) is { Count: 2 } twice && twice.Last().ToInstant() == minute;
                    Assert.True(secondTime || IsFree(c.Free, minute), $"free at {minute}");
                }
            }

            foreach (IGrouping<LocalDate, Slot> day in slots.GroupBy(s => s.Date))
            {
                Assert.True(day.Sum(s => s.Minutes) <= c.Free.DailyCapMinutes, "the daily cap is kept");
                Assert.True(!day.Any(s => s.LightOnly) || day.Count() <= 3, "three slots on a light day");
            }

            Assert.True(!slots.IsEmpty || !found.Notes.IsEmpty, "no slots without a reason");
        },
        iter: 300);

    [Fact]
    public void MoreFreeTimeNeverGivesFewerMinutesWhereTheDailyCapLeavesRoom()
        => Gen.Select(Gen.Int[0, 120], Gen.Int[0, 120], Gen.Int[0, 24]).Sample((before, after, gap) =>
        {
            // The same window with and without a busy time in its middle.
            FreeTime free = Free(extra: [On(_wednesday, 9, 0, before + gap + after)], cap: 475);
            LocalDateTime busy = _wednesday.At(new LocalTime(9, 0)).PlusMinutes(before);
            int minutes = Find(free, [new(busy.InZoneLeniently(free.Zone).ToInstant(), busy.PlusMinutes(gap).InZoneLeniently(free.Zone).ToInstant())], 10).Minutes;
            int without = Find(free, [], 10).Minutes;
            Assert.True(minutes <= without, $"{minutes} with and {without} without a busy time");
        });

    [Fact]
    public void ALongerWindowNeverGivesFewerMinutesUnderTheDailyCap()
        => Gen.Select(Gen.Int[0, 600], Gen.Int[0, 60], Gen.Int[10, 30]).Sample((length, more, cap) =>
            Assert.True(Find(Free(extra: [On(_wednesday, 9, 0, length)], cap: cap * 10), examIn: 10).Minutes
                <= Find(Free(extra: [On(_wednesday, 9, 0, length + more)], cap: cap * 10), examIn: 10).Minutes));

    [Fact]
    public void BusyTimeInAWindowDoesNotStartANewWindow()
    {
        SlotSearch found = Find(
            Free(extra: [On(_wednesday, 9, 0, 180), On(_wednesday, 14, 0, 60)]), [Busy("2026-11-25T09:55", "2026-11-25T10:23")], 10);

        Assert.Equal(["09:00+50 w1", "10:25+45 w1", "11:20+40 w1", "14:00+50 w2"], Describe(found));
    }

    [Fact]
    public void ABreakIsKeptAcrossAShortBusyTime()
    {
        SlotSearch found = Find(Free(extra: [On(_wednesday, 9, 0, 110)]), [Busy("2026-11-25T09:50", "2026-11-25T09:52")], 10);

        Assert.Equal(["09:00+50 w1", "10:00+50 w1"], Describe(found));
    }

    [Fact]
    public void AnOddStartIsRoundedUp()
    {
        FreeTime free = Free(extra: [On(_wednesday, 9, 0, 120)]);
        SlotSearch found = SlotFinder.Find(free, [], Start("2026-11-25T09:31:20", free.Zone), _wednesday.PlusDays(10));

        Assert.Equal(["09:35+40 w1", "10:25+35 w1"], Describe(found));
    }

    [Fact]
    public void WindowsThatOverlapOrTouchAreOne()
    {
        FreeTime free = Free(weekly: [new(IsoDayOfWeek.Wednesday, new(18, 0), new(19, 0)), new(IsoDayOfWeek.Wednesday, new(18, 30), new(20, 0))], extra: [On(_wednesday, 20, 0, 50)]);

        Assert.Equal(["18:00+50 w1", "19:00+50 w1", "20:00+50 w1"], Describe(Find(free, examIn: 7)));
    }

    [Fact]
    public void AWindowToMidnightGoesOnInOneThatStartsThere()
    {
        FreeTime free = Free(weekly: [new(IsoDayOfWeek.Wednesday, new(20, 0), LocalTime.Midnight), new(IsoDayOfWeek.Thursday, LocalTime.Midnight, new(1, 0))], cap: 480);
        SlotSearch found = Find(free, examIn: 7);

        Assert.Equal(["20:00+50 w1", "21:00+50 w1", "22:00+50 w1", "23:00+50 w1", "00:00+50 w1"], Describe(found));
        Assert.Equal(_wednesday.PlusDays(1), found.Slots[4].Date);
    }

    [Fact]
    public void AllDayEveryDayIsNumberedDayByDay()
    {
        FreeTime free = Free(weekly: [.. Enum.GetValues<IsoDayOfWeek>().Where(d => d != IsoDayOfWeek.None).Select(d => new WeeklyWindow(d, LocalTime.Midnight, LocalTime.Midnight))]);
        SlotSearch found = SlotFinder.Find(free, [], Start("2026-11-25T08:00", free.Zone), _wednesday.PlusDays(10));

        Assert.Equal(10, found.Slots.Select(s => s.Window).Distinct().Count());
        Assert.All(found.Slots.GroupBy(s => s.Window), w => Assert.Single(w.Select(s => s.Date).Distinct()));
        Assert.Contains(found.Notes, n => n.StartsWith("The daily cap of 4 h is reached on 8 days", StringComparison.Ordinal));
    }

    [Fact]
    public void ADayOffTakesTheWeeklyWindowsAndLeavesTheExtraOnes()
    {
        FreeTime free = Free(
            weekly: [new(IsoDayOfWeek.Wednesday, new(18, 0), new(19, 0))],
            off: [new DateInterval(_wednesday, _wednesday.PlusDays(2))],
            extra: [On(_wednesday.PlusDays(1), 7, 0, 30)]);

        Assert.Equal(["07:00+30 w1"], Describe(Find(free, examIn: 7)));
    }

    [Fact]
    public void TheSlotThatReachesTheDailyCapIsShortenedOrDropped()
    {
        ImmutableArray<ExtraWindow> twoHours = [On(_wednesday, 9, 0, 110)];

        Assert.Equal(["09:00+50 w1", "10:00+25 w1"], Describe(Find(Free(extra: twoHours, cap: 79), examIn: 10)));
        SlotSearch shared = Find(Free(extra: twoHours, cap: 74), examIn: 10);
        Assert.Equal(["09:00+45 w1", "10:00+25 w1"], Describe(shared));
        Assert.Equal(["The daily cap of 1 h 14 min is reached on 1 day, so 30 minutes are left free."], shared.Notes);
        Assert.Equal(["09:00+45 w1"], Describe(Find(Free(extra: twoHours, cap: 49), examIn: 10)));
    }

    [Theory]
    [InlineData(8, 2)]
    [InlineData(7, 2)]
    [InlineData(6, 1)]
    [InlineData(2, 1)]
    [InlineData(1, 1)]
    public void TheLastDaysAreLight(int daysToExam, int lightDays)
    {
        FreeTime free = EveryDay(new(9, 0), new(18, 0));
        ImmutableArray<Slot> slots = Find(free, examIn: daysToExam).Slots;
        LocalDate exam = _wednesday.PlusDays(daysToExam);

        Assert.Equal(daysToExam, slots.Select(s => s.Date).Distinct().Count());
        Assert.All(slots, s => Assert.Equal(s.Date >= exam.PlusDays(-lightDays), s.LightOnly));
        Assert.All(slots.Where(s => s.LightOnly).GroupBy(s => s.Date), day => Assert.Equal([30, 30, 30], day.Select(s => s.Minutes)));
    }

    [Fact]
    public void NothingEndsAfterEightOnTheEveningBefore()
    {
        SlotSearch found = Find(EveryDay(new(19, 0), new(22, 0)), examIn: 3);

        Assert.Equal(["19:00+25 w3", "19:35+25 w3"], Describe(found with { Slots = [.. found.Slots.Where(s => s.LightOnly)] }));
    }

    [Fact]
    public void AnExamTomorrowLeavesALightReviewToday()
    {
        FreeTime free = EveryDay(new(7, 0), new(22, 0));
        SlotSearch found = SlotFinder.Find(free, [], Start("2026-11-25T17:02", free.Zone), _wednesday.PlusDays(1));

        Assert.Equal(["17:05+30 w1", "17:45+30 w1", "18:25+30 w1"], Describe(found));
        Assert.Equal(["The exam is tomorrow: at most three short reviews today, nothing new, and nothing after 20:00."], found.Notes);
    }

    [Fact]
    public void LateOnTheEveningBeforeAnExamAtEightThereIsNothingLeft()
    {
        FreeTime free = EveryDay(LocalTime.Midnight, LocalTime.Midnight);
        SlotSearch found = SlotFinder.Find(free, [], Start("2026-11-25T21:00", free.Zone), _wednesday.PlusDays(1));

        Assert.Empty(found.Slots);
        Assert.Equal(2, found.Notes.Length);
        Assert.StartsWith("The exam is tomorrow", found.Notes[0], StringComparison.Ordinal);
        Assert.StartsWith("There is no free time before the exam", found.Notes[1], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, "The exam is today, so there is no time left to plan.")]
    [InlineData(-3, "The exam day 2026-11-22 is in the past, so there is nothing to plan.")]
    public void AnExamTodayOrEarlierLeavesNothing(int daysToExam, string note)
    {
        SlotSearch found = Find(EveryDay(new(7, 0), new(22, 0)), examIn: daysToExam);

        Assert.Empty(found.Slots);
        Assert.Equal([note], found.Notes);
    }

    [Fact]
    public void NoFreeTimeIsSaid()
    {
        Assert.Equal(["There is no free time before the exam: no window lies between the start of the plan and the evening before."], Find(Free(), examIn: 10).Notes);
        Assert.Equal(
            ["There is no free time before the exam: every window is busy, too late, or shorter than 25 minutes."],
            Find(Free(extra: [On(_wednesday, 9, 0, 60)]), [Busy("2026-11-25T09:20", "2026-11-25T09:40")], 10).Notes);
        Assert.Equal(
            ["The daily cap of 20 min is too short for a block of 25 minutes, so nothing can be planned."],
            Find(Free(extra: [On(_wednesday, 9, 0, 60)], cap: 20), examIn: 10).Notes);
        Assert.Empty(SlotFinder.Find(EveryDay(new(7, 0), new(22, 0)), [new Interval(null, null)], Start("2026-11-25T08:00", Zone("Europe/London")), _wednesday.PlusDays(9)).Slots);
    }

    [Theory]
    [InlineData(479, 0)]
    [InlineData(480, 1)]
    [InlineData(600, 1)]
    public void ADailyCapOfEightHoursOrMoreWarns(int cap, int notes)
        => Assert.Equal(notes, Find(Free(extra: [On(_wednesday, 9, 0, 60)], cap: cap), examIn: 10).Notes.Count(n => n.Contains("rest and sleep", StringComparison.Ordinal)));

    [Theory]
    [InlineData("Europe/London", "2027-03-28", "01:00", "04:00", 120)]
    [InlineData("Europe/London", "2026-10-25", "00:00", "03:00", 240)]
    [InlineData("Europe/London", "2027-03-28", "01:30", "02:25", 25)] // 01:30 does not exist: from the jump, 02:00
    [InlineData("Europe/London", "2027-03-28", "01:10", "01:50", 0)] // none of it exists
    [InlineData("America/New_York", "2027-03-14", "01:00", "04:00", 120)]
    [InlineData("America/New_York", "2026-11-01", "00:00", "03:00", 240)]
    [InlineData("Australia/Lord_Howe", "2026-10-04", "01:00", "04:00", 150)]
    [InlineData("Australia/Lord_Howe", "2027-04-04", "01:00", "04:00", 210)]
    [InlineData("Pacific/Apia", "2011-12-30", "09:00", "12:00", 0)] // the whole day does not exist
    public void ElapsedTimeCountsWhenTheClocksChange(string zone, string date, string start, string end, int elapsed)
    {
        LocalDate day = LocalDatePattern.Iso.Parse(date).Value;
        LocalTime from = LocalTimePattern.CreateWithInvariantCulture("HH:mm").Parse(start).Value;
        LocalTime to = LocalTimePattern.CreateWithInvariantCulture("HH:mm").Parse(end).Value;
        FreeTime free = new(Zone(zone), [], [], [new(day, from, to)], 1440);
        ImmutableArray<Slot> slots = SlotFinder.Find(free, [], Start(day.PlusDays(-1).ToString("uuuu-MM-dd", null) + "T08:00", free.Zone), day.PlusDays(10)).Slots;

        // The same elapsed time on an ordinary day gives the same slots.
        ImmutableArray<Slot> ordinary = Find(Free(extra: elapsed == 0 ? [] : [On(_wednesday, 9, 0, elapsed)], cap: 1440), examIn: 10).Slots;
        Assert.Equal(ordinary.Select(s => s.Minutes), slots.Select(s => s.Minutes));
        Assert.Equal(ordinary.Select(s => s.Start - ordinary[0].Start), slots.Select(s => s.Start - slots[0].Start));
    }

    [Fact]
    public void ADayOfTwentyThreeHoursKeepsItsWallClock()
    {
        FreeTime free = EveryDay(new(9, 0), new(9, 50));
        ImmutableArray<Slot> slots = SlotFinder.Find(free, [], Start("2027-03-27T08:00", free.Zone), new(2027, 4, 6)).Slots;

        Assert.All(slots, s => Assert.Equal(new LocalTime(9, 0), s.Start.InZone(free.Zone).TimeOfDay));
        Assert.Equal(Duration.FromHours(23), slots[1].Start - slots[0].Start);
    }

    [Fact]
    public void TheStartMayBeGivenInAnotherZone()
    {
        FreeTime free = EveryDay(new(9, 0), new(10, 0));

        // 2026-11-26 00:30 in Tokyo is still 2026-11-25 15:30 in London.
        SlotSearch found = SlotFinder.Find(free, [], Start("2026-11-26T00:30", Zone("Asia/Tokyo")), _wednesday.PlusDays(1));
        Assert.Equal(2, found.Notes.Length);
        Assert.StartsWith("The exam is tomorrow", found.Notes[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Kept_blocks_are_slots_as_they_are_and_the_others_fill_what_is_left()
    {
        FreeTime free = Free(extra: [On(_wednesday.PlusDays(1), 9, 0, 180)], cap: 475);

        Assert.Equal(["09:00+50 w1", "10:00+50 w1", "11:00+50 w1"], Describe(Find(free, examIn: 10)));
        Assert.Equal(["09:00+30 w1", "09:40+40 w1", "10:30+25 w1", "11:05+50 w1"], Describe(Kept(free, ("2026-11-26T09:40", 40), ("2026-11-26T10:30", 25))));
    }

    [Fact]
    public void A_block_is_not_kept_where_it_would_break_a_rule()
    {
        FreeTime free = Free(extra: [On(_wednesday.PlusDays(1), 9, 0, 120)], cap: 75);

        // Outside the window, too long, too short, without a break before it, over the cap.
        Assert.Equal(["09:00+50 w1", "10:00+25 w1"], Describe(Kept(free, ("2026-11-26T08:50", 30))));
        Assert.Equal(["09:00+50 w1", "10:00+25 w1"], Describe(Kept(free, ("2026-11-26T09:10", 55))));
        Assert.Equal(["09:00+50 w1", "10:00+25 w1"], Describe(Kept(free, ("2026-11-26T09:10", 20))));
        Assert.Equal(["09:05+25 w1", "09:40+25 w1", "10:25+25 w1"], Describe(Kept(free, ("2026-11-26T09:05", 25), ("2026-11-26T09:35", 25))));
        Assert.Equal(["09:05+50 w1", "10:05+25 w1"], Describe(Kept(free, ("2026-11-26T09:05", 50), ("2026-11-26T10:15", 30))));
    }

    [Fact]
    public void In_the_last_days_only_short_blocks_are_kept_and_three_a_day_at_most()
    {
        FreeTime free = Free(extra: [On(_wednesday.PlusDays(9), 9, 0, 300)], cap: 475);

        Assert.Equal(["09:10+30 w1", "09:50+30 w1", "10:30+30 w1"], Describe(Kept(free, ("2026-12-04T09:10", 30))));
        Assert.Equal(["09:00+30 w1", "09:40+30 w1", "10:20+30 w1"], Describe(Kept(free, ("2026-12-04T09:10", 40))));
        Assert.Equal(
            ["09:00+25 w1", "10:00+25 w1", "11:00+25 w1"],
            Describe(Kept(free, ("2026-12-04T09:00", 25), ("2026-12-04T10:00", 25), ("2026-12-04T11:00", 25), ("2026-12-04T12:00", 25))));
    }

    [Fact]
    public void A_settled_first_light_day_stays_as_the_exam_draws_near()
    {
        FreeTime free = EveryDay(new(9, 0), new(10, 0));
        LocalDate exam = _wednesday.PlusDays(4);

        Assert.Equal(exam.PlusDays(-1), Find(free, examIn: 4).LightFrom);
        SlotSearch settled = SlotFinder.Find(free, [], Start("2026-11-25T00:00", free.Zone), exam, exam.PlusDays(-2));
        Assert.Equal(exam.PlusDays(-2), settled.LightFrom);
        Assert.Equal([exam.PlusDays(-2), exam.PlusDays(-1)], settled.Slots.Where(s => s.LightOnly).Select(s => s.Date).Distinct());
    }

    private static SlotSearch Kept(FreeTime free, params (string Start, int Minutes)[] blocks)
        => SlotFinder.Find(
            free,
            [],
            Start("2026-11-25T00:00", free.Zone),
            _wednesday.PlusDays(10),
            kept: [.. blocks.Select(b => new Interval(Start(b.Start, free.Zone).ToInstant(), Start(b.Start, free.Zone).ToInstant() + Duration.FromMinutes(b.Minutes)))]);

    private static readonly Gen<(FreeTime Free, Interval[] Busy, ZonedDateTime From, LocalDate ExamDay)> _cases =
        from zone in Gen.OneOf("Europe/London", "America/New_York", "Australia/Lord_Howe", "America/Sao_Paulo", "Asia/Kathmandu").Select(Zone)
        from first in Gen.OneOf(new LocalDate(2026, 10, 1), new(2026, 10, 22), new(2026, 10, 30), new(2027, 3, 12), new(2027, 3, 26), new(2027, 4, 1), new(2018, 11, 1))
        from minute in Gen.Int[0, 1439]
        from days in Gen.Int[1, 16]
        from weekly in Gen.Select(Gen.Int[1, 7], GenTimes).Select((d, t) => new WeeklyWindow((IsoDayOfWeek)d, t.Start, t.End)).Array[0, 12]
        from extra in Gen.Select(Gen.Int[0, 16], GenTimes).Select((d, t) => new ExtraWindow(first.PlusDays(d), t.Start, t.End)).Array[0, 4]
        from off in Gen.Select(Gen.Int[0, 16], Gen.Int[0, 3]).Select((d, n) => new DateInterval(first.PlusDays(d), first.PlusDays(d + n))).Array[0, 2]
        from cap in Gen.OneOf(Gen.Int[0, 600], Gen.Const(1440))
        let start = first.At(LocalTime.FromMinutesSinceMidnight(minute)).InZoneLeniently(zone)
        from busy in Gen.Select(Gen.Int[0, 16 * 1440], Gen.Int[0, 400])
            .Select((at, length) => new Interval(start.ToInstant() + Duration.FromMinutes(at), start.ToInstant() + Duration.FromMinutes(at + length))).Array[0, 20]
        select (new FreeTime(zone, [.. weekly], [.. off], [.. extra], cap), busy, start, first.PlusDays(days));

    private static Gen<(LocalTime Start, LocalTime End)> GenTimes
        => Gen.Select(Gen.Int[0, 95], Gen.Int[1, 40]).Select((start, length) => (
            LocalTime.FromMinutesSinceMidnight(start * 15),
            start + length >= 96 ? LocalTime.Midnight : LocalTime.FromMinutesSinceMidnight((start + length) * 15)));

    // Judged minute by minute on the wall clock, without any of the finder's interval arithmetic.
    private static bool IsFree(FreeTime free, Instant instant)
    {
        ZonedDateTime at = instant.InZone(free.Zone);
        bool Within(LocalTime start, LocalTime end) => at.TimeOfDay >= start && (end == LocalTime.Midnight || at.TimeOfDay < end);
        return free.Extra.Any(w => w.Date == at.Date && Within(w.Start, w.End))
            || (!free.DaysOff.Any(d => d.Contains(at.Date)) && free.Weekly.Any(w => w.Day == at.DayOfWeek && Within(w.Start, w.End)));
    }

    private static LocalDate FirstLightDay(LocalDate today, LocalDate exam)
        => exam.PlusDays(today.PlusDays(7) <= exam ? -2 : -1);

    private static Instant EveningBefore(LocalDate exam, DateTimeZone zone) => exam.PlusDays(-1).At(new(20, 0)).InZoneLeniently(zone).ToInstant();

    private static SlotSearch Find(FreeTime free, int examIn) => Find(free, [], examIn);

    private static SlotSearch Find(FreeTime free, IReadOnlyList<Interval> busy, int examIn)
        => SlotFinder.Find(free, busy, Start("2026-11-25T00:00", free.Zone), _wednesday.PlusDays(examIn));

    private static FreeTime Free(
        ImmutableArray<WeeklyWindow>? weekly = null,
        ImmutableArray<DateInterval>? off = null,
        ImmutableArray<ExtraWindow>? extra = null,
        int cap = FreeTime.DefaultDailyCapMinutes)
        => new(Zone("Europe/London"), weekly ?? [], off ?? [], extra ?? [], cap);

    private static FreeTime EveryDay(LocalTime start, LocalTime end)
        => Free(weekly: [.. Enum.GetValues<IsoDayOfWeek>().Where(d => d != IsoDayOfWeek.None).Select(d => new WeeklyWindow(d, start, end))], cap: 475);

    private static ExtraWindow On(LocalDate date, int hour, int minute, int length)
        => new(date, new(hour, minute), length == 0 ? new LocalTime(hour, minute, 0, 1) : new LocalTime(hour, minute).PlusMinutes(length));

    private static Interval Busy(string start, string end) => new(Start(start, Zone("Europe/London")).ToInstant(), Start(end, Zone("Europe/London")).ToInstant());

    private static ZonedDateTime Start(string local, DateTimeZone zone)
        => LocalDateTimePattern.ExtendedIso.Parse(local.Length == 16 ? local + ":00" : local).Value.InZoneLeniently(zone);

    private static IEnumerable<string> Describe(SlotSearch found)
        => found.Slots.Select(s => $"{s.Start.InZone(Zone("Europe/London")).ToString("HH:mm", null)}+{s.Minutes} w{s.Window}");

    private static DateTimeZone Zone(string id) => DateTimeZoneProviders.Tzdb[id];
}
