using System.Collections.Immutable;

using NodaTime;

namespace Homestretch.Core.Planning.Calendar;

/// <summary>Answers "what if I had more, or fewer, hours a week?" with a changed free time.</summary>
/// <remarks>How a person finds or loses hours is not known; these rules are an assumption, chosen to be plain and to leave the
/// nights alone. Fewer hours: the longest days are shortened first, all down to one length; where that length would fall below
/// <see cref="ShortestDayMinutes"/>, whole days go, the shortest first. More hours: the last window of every day that has one is
/// lengthened, all by the same minutes, by up to <see cref="MostStretchMinutes"/> and not past <see cref="LatestEnd"/>; if that does
/// not do, days without a window get one from <see cref="AddedStart"/>, up to <see cref="MostAddedMinutes"/> long. The daily cap
/// stays. Windows on single dates are shortened with the rest and never lengthened.</remarks>
public static class FreeTimeScaling
{
    /// <summary>A day shorter than this holds no useful block, so it is dropped rather than shortened further.</summary>
    public const int ShortestDayMinutes = 30;

    /// <summary>Most minutes that are added to a day that has a window.</summary>
    public const int MostStretchMinutes = 120;

    /// <summary>Most minutes that are given to a day without a window.</summary>
    public const int MostAddedMinutes = 120;

    private const int MinutesInDay = 24 * 60;

    /// <summary>No window is lengthened past this.</summary>
    public static LocalTime LatestEnd { get; } = new(22, 0);

    /// <summary>Start of a window on a day that had none.</summary>
    public static LocalTime AddedStart { get; } = new(19, 0);

    /// <summary>Minutes of free time in an ordinary week: weekly windows under the daily cap, before days off and busy times.</summary>
    public static int WeeklyMinutes(FreeTime free)
    {
        ArgumentNullException.ThrowIfNull(free);
        return Days(free).Sum(day => day.Minutes(free.DailyCapMinutes));
    }

    /// <summary>The most that <see cref="ToWeeklyMinutes"/> can reach.</summary>
    public static int MostWeeklyMinutes(FreeTime free)
    {
        ArgumentNullException.ThrowIfNull(free);
        return Days(free).Sum(day => day.Stretched(MostStretchMinutes, MostAddedMinutes).Minutes(free.DailyCapMinutes));
    }

    /// <summary>Free time that holds about <paramref name="minutes"/> in an ordinary week: the same free time where it already does,
    /// otherwise within one minute a day, and never more than <see cref="MostWeeklyMinutes"/>.</summary>
    /// <param name="free">The free time as it is.</param>
    /// <param name="minutes">Minutes a week, zero or more.</param>
    public static FreeTime ToWeeklyMinutes(FreeTime free, int minutes)
    {
        ArgumentNullException.ThrowIfNull(free);
        ArgumentOutOfRangeException.ThrowIfNegative(minutes);
        ImmutableArray<Day> days = Days(free);
        int now = days.Sum(day => day.Minutes(free.DailyCapMinutes));
        return minutes == now ? free : minutes < now ? Shorten(free, days, minutes) : Lengthen(free, days, minutes);
    }

    private static FreeTime Shorten(FreeTime free, ImmutableArray<Day> days, int minutes)
    {
        int cap = free.DailyCapMinutes;
        Day[] longestFirst = [.. days.Where(d => d.Minutes(cap) > 0).OrderByDescending(d => d.Minutes(cap)).ThenBy(d => d.DayOfWeek)];
        int kept = Math.Min(longestFirst.Length, minutes / ShortestDayMinutes);
        if (kept == 0)
        {
            return new FreeTime(free.Zone, [], free.DaysOff, [], cap);
        }

        // The level above which every kept day is cut off, as one fills a vessel with water.
        int level = Most(cap, trial => longestFirst.Take(kept).Sum(d => Math.Min(d.Minutes(cap), trial)) <= minutes);
        ImmutableHashSet<IsoDayOfWeek> keptDays = [.. longestFirst.Take(kept).Select(d => d.DayOfWeek)];
        return new FreeTime(
            free.Zone,
            [.. days.Where(d => keptDays.Contains(d.DayOfWeek)).SelectMany(d => d.CutTo(level).Weekly())],
            free.DaysOff,
            [.. free.Extra.GroupBy(e => e.Date).OrderBy(g => g.Key).SelectMany(g => Day.Of(g).CutTo(level).Extra(g.Key))],
            cap);
    }

    private static FreeTime Lengthen(FreeTime free, ImmutableArray<Day> days, int minutes)
    {
        int cap = free.DailyCapMinutes;
        int stretch = Most(MostStretchMinutes, trial => days.Sum(d => d.Stretched(trial, 0).Minutes(cap)) <= minutes);
        int added = stretch < MostStretchMinutes
            ? 0
            : Most(MostAddedMinutes, trial => days.Sum(d => d.Stretched(stretch, trial).Minutes(cap)) <= minutes);
        return new FreeTime(free.Zone, [.. days.SelectMany(d => d.Stretched(stretch, added).Weekly())], free.DaysOff, free.Extra, cap);
    }

    /// <summary>The largest whole number from 0 to <paramref name="limit"/> for which a condition that fails from some point on still holds.</summary>
    private static int Most(int limit, Func<int, bool> holds)
    {
        int low = 0;
        int high = limit;
        while (low < high)
        {
            int middle = (low + high + 1) / 2;
            if (holds(middle))
            {
                low = middle;
            }
            else
            {
                high = middle - 1;
            }
        }

        return low;
    }

    private static ImmutableArray<Day> Days(FreeTime free)
        => [.. Enumerable.Range(1, 7).Select(n => (IsoDayOfWeek)n)
            .Select(dayOfWeek => Day.Of(dayOfWeek, free.Weekly.Where(w => w.Day == dayOfWeek).Select(w => (w.Start, w.End))))];

    /// <summary>A day's windows as minutes since midnight, in order, apart from each other.</summary>
    private sealed record Day(IsoDayOfWeek DayOfWeek, ImmutableArray<(int Start, int End)> Windows)
    {
        public static Day Of(IGrouping<LocalDate, ExtraWindow> date) => Of(date.Key.DayOfWeek, date.Select(e => (e.Start, e.End)));

        public static Day Of(IsoDayOfWeek dayOfWeek, IEnumerable<(LocalTime Start, LocalTime End)> windows)
        {
            List<(int Start, int End)> merged = [];
            foreach ((int start, int end) in windows
                .Select(w => (Start: MinuteOf(w.Start), End: w.End == LocalTime.Midnight ? MinutesInDay : MinuteOf(w.End)))
                .OrderBy(w => w.Start))
            {
                if (merged.Count > 0 && start <= merged[^1].End)
                {
                    merged[^1] = (merged[^1].Start, Math.Max(merged[^1].End, end));
                }
                else
                {
                    merged.Add((start, end));
                }
            }

            return new(dayOfWeek, [.. merged]);
        }

        public int Minutes(int cap) => Math.Min(cap, Windows.Sum(w => w.End - w.Start));

        /// <summary>The first <paramref name="minutes"/> of the day's windows.</summary>
        public Day CutTo(int minutes)
        {
            int left = minutes;
            ImmutableArray<(int Start, int End)>.Builder kept = ImmutableArray.CreateBuilder<(int Start, int End)>();
            foreach ((int start, int end) in Windows)
            {
                int length = Math.Min(left, end - start);
                if (length > 0)
                {
                    kept.Add((start, start + length));
                    left -= length;
                }
            }

            return this with { Windows = kept.ToImmutable() };
        }

        public Day Stretched(int stretch, int added)
        {
            int latest = MinuteOf(LatestEnd);
            if (Windows.IsEmpty)
            {
                int start = MinuteOf(AddedStart);
                return added == 0 ? this : this with { Windows = [(start, Math.Min(latest, start + added))] };
            }

            (int Start, int End) last = Windows[^1];
            return this with { Windows = Windows.SetItem(Windows.Length - 1, (last.Start, Math.Max(last.End, Math.Min(latest, last.End + stretch)))) };
        }

        public IEnumerable<WeeklyWindow> Weekly() => Windows.Select(w => new WeeklyWindow(DayOfWeek, TimeOf(w.Start), TimeOf(w.End)));

        public IEnumerable<ExtraWindow> Extra(LocalDate date) => Windows.Select(w => new ExtraWindow(date, TimeOf(w.Start), TimeOf(w.End)));

        private static int MinuteOf(LocalTime time) => (time.Hour * 60) + time.Minute;

        private static LocalTime TimeOf(int minute) => minute == MinutesInDay ? LocalTime.Midnight : LocalTime.FromMinutesSinceMidnight(minute);
    }
}
