using System.Collections.Immutable;

using CsCheck;

using Homestretch.Core.Planning.Calendar;

using NodaTime;

namespace Homestretch.Core.Tests.Planning.Calendar;

/// <summary>The rules are an assumption of ours, so these tests hold them to their own statement; there is no outside value.</summary>
public sealed class FreeTimeScalingTests
{
    private static readonly DateTimeZone Zone = DateTimeZoneProviders.Tzdb["Europe/London"];

    private static readonly Gen<FreeTime> AnyFreeTime =
        from windows in Gen.Select(Gen.Int[1, 7], Gen.Int[0, 95], Gen.Int[1, 96])
            .Where((_, start, end) => start < end)
            .Select((day, start, end) => new WeeklyWindow((IsoDayOfWeek)day, At(start * 15), At(end * 15)))
            .List[0, 10]
        from extra in Gen.Select(Gen.Int[0, 20], Gen.Int[0, 95], Gen.Int[1, 96])
            .Where((_, start, end) => start < end)
            .Select((day, start, end) => new ExtraWindow(new LocalDate(2026, 11, 25).PlusDays(day), At(start * 15), At(end * 15)))
            .List[0, 3]
        from cap in Gen.Int[0, 48]
        select new FreeTime(Zone, [.. windows], [], [.. extra], cap * 10);

    [Fact]
    public void An_ordinary_week_counts_weekly_windows_under_the_daily_cap()
    {
        FreeTime free = Free(
            cap: 240,
            Window(IsoDayOfWeek.Monday, "18:30", "20:00"),
            Window(IsoDayOfWeek.Monday, "19:30", "20:30"), // overlaps by half an hour: two hours in all
            Window(IsoDayOfWeek.Saturday, "09:00", "15:00")); // six hours, of which four count

        Assert.Equal(120 + 240, FreeTimeScaling.WeeklyMinutes(free));
    }

    [Fact]
    public void Fewer_hours_shorten_the_longest_day_first()
    {
        FreeTime free = Free(
            cap: 240,
            Window(IsoDayOfWeek.Monday, "18:00", "19:00"),
            Window(IsoDayOfWeek.Saturday, "09:00", "11:00"),
            Window(IsoDayOfWeek.Saturday, "14:00", "16:00"));

        FreeTime less = FreeTimeScaling.ToWeeklyMinutes(free, 210);

        Assert.Equal(
            [Window(IsoDayOfWeek.Monday, "18:00", "19:00"), Window(IsoDayOfWeek.Saturday, "09:00", "11:00"), Window(IsoDayOfWeek.Saturday, "14:00", "14:30")],
            less.Weekly);
    }

    [Fact]
    public void Fewer_hours_drop_days_rather_than_leave_crumbs()
    {
        FreeTime free = Free(
            cap: 240,
            Window(IsoDayOfWeek.Monday, "18:00", "19:00"),
            Window(IsoDayOfWeek.Wednesday, "18:00", "19:00"),
            Window(IsoDayOfWeek.Friday, "18:00", "19:00"));

        Assert.Equal(
            [Window(IsoDayOfWeek.Monday, "18:00", "18:35"), Window(IsoDayOfWeek.Wednesday, "18:00", "18:35")],
            FreeTimeScaling.ToWeeklyMinutes(free, 70).Weekly);
        Assert.Empty(FreeTimeScaling.ToWeeklyMinutes(free, 20).Weekly);
    }

    [Fact]
    public void More_hours_lengthen_evenings_then_use_free_days()
    {
        FreeTime free = Free(cap: 240, Window(IsoDayOfWeek.Monday, "18:00", "19:00"), Window(IsoDayOfWeek.Friday, "20:30", "21:30"));

        // Monday can gain two hours, Friday only half an hour.
        Assert.Equal(
            [Window(IsoDayOfWeek.Monday, "18:00", "20:00"), Window(IsoDayOfWeek.Friday, "20:30", "22:00")],
            FreeTimeScaling.ToWeeklyMinutes(free, 210).Weekly);

        FreeTime most = FreeTimeScaling.ToWeeklyMinutes(free, 100_000);
        Assert.Equal(7, most.Weekly.Select(w => w.Day).Distinct().Count());
        Assert.Contains(Window(IsoDayOfWeek.Sunday, "19:00", "21:00"), most.Weekly);
        Assert.Equal(180 + 90 + (5 * 120), FreeTimeScaling.WeeklyMinutes(most));
    }

    [Fact]
    public void A_single_date_is_shortened_with_the_rest_and_never_lengthened()
    {
        LocalDate date = new(2026, 12, 1);
        FreeTime free = new(Zone, [Window(IsoDayOfWeek.Monday, "18:00", "20:00")], [], [new ExtraWindow(date, new(10, 0), new(13, 0))]);

        Assert.Equal([new ExtraWindow(date, new(10, 0), new(11, 0))], FreeTimeScaling.ToWeeklyMinutes(free, 60).Extra);
        Assert.Equal(free.Extra, FreeTimeScaling.ToWeeklyMinutes(free, 200).Extra);
    }

    [Fact]
    public void Any_free_time_meets_what_is_asked_within_a_minute_a_day_and_keeps_the_cap()
        => Gen.Select(AnyFreeTime, Gen.Int[0, 3000]).Sample((free, asked) =>
        {
            FreeTime scaled = FreeTimeScaling.ToWeeklyMinutes(free, asked);
            int held = FreeTimeScaling.WeeklyMinutes(scaled);
            int most = FreeTimeScaling.MostWeeklyMinutes(free);
            int meant = Math.Min(asked, most);

            // Below one useful day nothing is kept, and dropping whole days can leave the last ones shorter than asked.
            Assert.InRange(held, 0, meant);
            if (asked >= FreeTimeScaling.WeeklyMinutes(free))
            {
                Assert.InRange(held, meant - 7, meant);
            }

            Assert.Equal(free.DailyCapMinutes, scaled.DailyCapMinutes);
            Assert.All(scaled.Weekly, w => Assert.True(
                EndMinute(w) <= 22 * 60 || free.Weekly.Any(before => before.Day == w.Day && EndMinute(before) >= EndMinute(w)),
                $"{w.Day} ends at {w.End}"));
        });

    [Fact]
    public void Asking_for_more_never_gives_less()
        => Gen.Select(AnyFreeTime, Gen.Int[0, 2000], Gen.Int[0, 200]).Sample((free, asked, extra) =>
            Assert.True(
                FreeTimeScaling.WeeklyMinutes(FreeTimeScaling.ToWeeklyMinutes(free, asked))
                <= FreeTimeScaling.WeeklyMinutes(FreeTimeScaling.ToWeeklyMinutes(free, asked + extra)) + 7));

    [Fact]
    public void Asking_for_what_there_is_changes_nothing()
        => AnyFreeTime.Sample(free => Assert.Same(free, FreeTimeScaling.ToWeeklyMinutes(free, FreeTimeScaling.WeeklyMinutes(free))));

    private static FreeTime Free(int cap, params ImmutableArray<WeeklyWindow> windows) => new(Zone, windows, [], [], cap);

    private static WeeklyWindow Window(IsoDayOfWeek day, string start, string end)
        => new(day, NodaTime.Text.LocalTimePattern.ExtendedIso.Parse(start + ":00").Value, NodaTime.Text.LocalTimePattern.ExtendedIso.Parse(end + ":00").Value);

    private static int EndMinute(WeeklyWindow window) => window.End == LocalTime.Midnight ? 24 * 60 : (window.End.Hour * 60) + window.End.Minute;

    private static LocalTime At(int minute) => minute == 24 * 60 ? LocalTime.Midnight : LocalTime.FromMinutesSinceMidnight(minute);
}
