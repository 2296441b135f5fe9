using System.Collections.Immutable;
using System.Globalization;

using NodaTime;
using NodaTime.TimeZones;

namespace Homestretch.Core.Planning.Calendar;

/// <summary>Finds the slots for study blocks: free time less busy time, under the rules of a humane schedule.</summary>
/// <remarks>Block length, break, daily cap and light last days are common practice, no source.</remarks>
public static class SlotFinder
{
    /// <summary>Shortest block, in minutes; a shorter piece of free time stays free.</summary>
    public const int ShortestMinutes = 25;

    /// <summary>Longest block, in minutes.</summary>
    public const int LongestMinutes = 50;

    /// <summary>Least break between two blocks, in minutes.</summary>
    public const int BreakMinutes = 10;

    /// <summary>Longest block on a light day, in minutes.</summary>
    public const int LongestLightMinutes = 30;

    /// <summary>Most blocks on a light day.</summary>
    public const int MostLightBlocks = 3;

    /// <summary>Starts and lengths of blocks are multiples of this.</summary>
    public const int StepMinutes = 5;

    private const int DaysForTwoLightDays = 7;

    // A wall-clock time that the clocks skip means the moment they jump; one that comes twice means the first.
    private static readonly ZoneLocalMappingResolver _resolver =
        Resolvers.CreateMappingResolver(Resolvers.ReturnEarlier, Resolvers.ReturnStartOfIntervalAfter);

    /// <summary>On the evening before the exam every block ends by this time.</summary>
    public static LocalTime EveningBeforeEnd { get; } = new(20, 0);

    /// <summary>The slots from <paramref name="from"/> to the day before the exam.</summary>
    /// <param name="free">Windows on the wall clock of its zone. Windows that overlap or touch count as one; one that lasts
    /// longer than a day is numbered anew every local midnight. Elapsed time counts on days when the clocks change.</param>
    /// <param name="busy">Times to keep free, in any order; they may overlap and may be unbounded.</param>
    /// <param name="from">No slot starts before.</param>
    /// <param name="examDay">The day of the exam in the zone of <paramref name="free"/>; no slot lies on it or later.</param>
    /// <param name="lightFrom">The first day for light review only, where it has been settled before; otherwise the last two days, or the last one with less than a week to go.</param>
    /// <param name="kept">Blocks of an earlier plan in time order: each that keeps the rules is a slot just as it is, and the others fill what is left.</param>
    public static SlotSearch Find(
        FreeTime free, IReadOnlyList<Interval> busy, ZonedDateTime from, LocalDate examDay, LocalDate? lightFrom = null, IReadOnlyList<Interval>? kept = null)
    {
        ArgumentNullException.ThrowIfNull(free);
        ArgumentNullException.ThrowIfNull(busy);
        LocalDate today = from.WithZone(free.Zone).Date;
        if (examDay <= today)
        {
            return new([], examDay, [examDay == today
                ? "The exam is today, so there is no time left to plan."
                : string.Create(CultureInfo.InvariantCulture, $"The exam day {examDay:uuuu-MM-dd} is in the past, so there is nothing to plan.")]);
        }

        int days = Period.DaysBetween(today, examDay);
        LocalDate firstLight = lightFrom ?? examDay.PlusDays(days >= DaysForTwoLightDays ? -2 : -1);
        List<Stretch> windows = Windows(free, from.ToInstant(), today, examDay);
        List<Stretch> open = Subtract(windows, busy);
        List<Placed> old = Keep(kept ?? [], open, free, firstLight);
        Interval[] taken = [.. old.Select(k => new Interval(k.Slot.Start - Duration.FromMinutes(BreakMinutes), k.Slot.End + Duration.FromMinutes(BreakMinutes)))];
        List<Placed> fitting = Fill(Subtract(open, taken), free.Zone, firstLight, old);
        List<Placed> capped = Cap(fitting, free.DailyCapMinutes, old, out int cappedDays, out int cappedMinutes);
        ImmutableArray<Slot> slots = Numbered([.. old, .. capped]);

        ImmutableArray<string>.Builder notes = ImmutableArray.CreateBuilder<string>();
        if (days == 1)
        {
            notes.Add("The exam is tomorrow: at most three short reviews today, nothing new, and nothing after 20:00.");
        }

        if (slots.IsEmpty)
        {
            notes.Add(WhyNone(free, windows.Count > 0, fitting.Count > 0));
        }

        if (free.DailyCapMinutes >= FreeTime.WarnDailyCapMinutes)
        {
            notes.Add($"A daily cap of {Hours(free.DailyCapMinutes)} is a lot: rest and sleep come before one more hour.");
        }

        if (cappedDays > 0 && !slots.IsEmpty)
        {
            notes.Add(string.Create(
                CultureInfo.InvariantCulture,
                $"The daily cap of {Hours(free.DailyCapMinutes)} is reached on {cappedDays} {(cappedDays == 1 ? "day" : "days")}, so {cappedMinutes} minutes are left free."));
        }

        return new(slots, firstLight, notes.ToImmutable());
    }

    // Blocks that lie in open time and keep the rules, as slots of their own.
    private static List<Placed> Keep(IReadOnlyList<Interval> blocks, List<Stretch> open, FreeTime free, LocalDate firstLight)
    {
        List<Placed> kept = [];
        foreach (Interval block in blocks)
        {
            int minutes = (int)block.Duration.TotalMinutes;
            LocalDate date = block.Start.InZone(free.Zone).Date;
            bool light = date >= firstLight;
            Stretch? around = open.Cast<Stretch?>().FirstOrDefault(s => s!.Value.Start <= block.Start && block.End <= s.Value.End);
            if (around is { } stretch
                && minutes >= ShortestMinutes
                && minutes <= (light ? LongestLightMinutes : LongestMinutes)
                && (!light || kept.Count(k => k.Slot.Date == date) < MostLightBlocks)
                && kept.Where(k => k.Slot.Date == date).Sum(k => k.Slot.Minutes) + minutes <= free.DailyCapMinutes
                && (kept.Count == 0 || kept[^1].Slot.End + Duration.FromMinutes(BreakMinutes) <= block.Start))
            {
                kept.Add(new(new(block.Start, minutes, date, 0, light), stretch.WindowOn(date)));
            }
        }

        return kept;
    }

    private static string WhyNone(FreeTime free, bool anyWindow, bool anyFits)
        => anyFits
            ? $"The daily cap of {Hours(free.DailyCapMinutes)} is too short for a block of {ShortestMinutes} minutes, so nothing can be planned."
            : anyWindow
                ? $"There is no free time before the exam: every window is busy, too late, or shorter than {ShortestMinutes} minutes."
                : "There is no free time before the exam: no window lies between the start of the plan and the evening before.";

    /// <summary>Whether a time meets one of these, which may be unbounded.</summary>
    internal static bool IsBusy(IReadOnlyList<Interval> busy, Interval time)
        => busy.Any(b => (!b.HasStart || b.Start < time.End) && (!b.HasEnd || time.Start < b.End));

    private static string Hours(int minutes)
        => minutes < 60 ? string.Create(CultureInfo.InvariantCulture, $"{minutes} min")
            : minutes % 60 == 0 ? string.Create(CultureInfo.InvariantCulture, $"{minutes / 60} h")
            : string.Create(CultureInfo.InvariantCulture, $"{minutes / 60} h {minutes % 60} min");

    /// <summary>Windows of all days as instants, merged where they overlap or touch, cut to what lies before the exam.</summary>
    private static List<Stretch> Windows(FreeTime free, Instant from, LocalDate today, LocalDate examDay)
    {
        ILookup<IsoDayOfWeek, WeeklyWindow> weekly = free.Weekly.ToLookup(w => w.Day);
        ILookup<LocalDate, ExtraWindow> extra = free.Extra.ToLookup(w => w.Date);
        List<Stretch> all = [];
        for (LocalDate date = today; date < examDay; date = date.PlusDays(1))
        {
            if (!free.DaysOff.Any(off => off.Contains(date)))
            {
                all.AddRange(weekly[date.DayOfWeek].Select(w => OnDay(free.Zone, date, w.Start, w.End)));
            }

            all.AddRange(extra[date].Select(w => OnDay(free.Zone, date, w.Start, w.End)));
        }

        all.Sort((a, b) => a.Start.CompareTo(b.Start));
        Instant evening = At(free.Zone, examDay.PlusDays(-1) + EveningBeforeEnd);
        List<Stretch> merged = [];
        foreach (Stretch next in all)
        {
            Instant start = Instant.Max(next.Start, from);
            Instant end = Instant.Min(next.End, evening);
            if (end <= start)
            {
                continue;
            }

            if (merged.Count > 0 && start <= merged[^1].End)
            {
                merged[^1] = merged[^1] with { End = Instant.Max(merged[^1].End, end) };
            }
            else
            {
                merged.Add(new(start, end, merged.Count, false));
            }
        }

        return [.. merged.Select(w => w with { LongerThanDay = w.End - w.Start > Duration.FromDays(1) })];
    }

    private static Stretch OnDay(DateTimeZone zone, LocalDate date, LocalTime start, LocalTime end)
        => new(At(zone, date + start), At(zone, end == LocalTime.Midnight ? date.PlusDays(1) + end : date + end), 0, false);

    private static Instant At(DateTimeZone zone, LocalDateTime wallClock) => zone.ResolveLocal(wallClock, _resolver).ToInstant();

    private static List<Stretch> Subtract(List<Stretch> windows, IReadOnlyList<Interval> busy)
    {
        (Instant Start, Instant End)[] taken =
        [
            .. busy.Select(b => (Start: b.HasStart ? b.Start : Instant.MinValue, End: b.HasEnd ? b.End : Instant.MaxValue))
                .Where(b => b.Start < b.End)
                .OrderBy(b => b.Start),
        ];
        List<Stretch> left = [];
        foreach (Stretch window in windows)
        {
            Instant start = window.Start;
            foreach ((Instant busyStart, Instant busyEnd) in taken)
            {
                if (busyStart >= window.End)
                {
                    break;
                }

                if (busyStart > start)
                {
                    left.Add(window with { Start = start, End = busyStart });
                }

                start = Instant.Max(start, busyEnd);
            }

            if (start < window.End)
            {
                left.Add(window with { Start = start });
            }
        }

        return left;
    }

    private static List<Placed> Fill(List<Stretch> stretches, DateTimeZone zone, LocalDate firstLight, List<Placed> kept)
    {
        // Light days are filled one by one; a stretch that runs over midnight is cut there, so that each part follows its own day's rule.
        Instant[] midnights = [At(zone, firstLight.AtMidnight()), At(zone, firstLight.PlusDays(1).AtMidnight())];
        List<Placed> slots = [];
        foreach (Stretch stretch in midnights.Aggregate<Instant, IEnumerable<Stretch>>(stretches, SplitAt))
        {
            Instant earliest = slots.Count == 0 ? stretch.Start : Instant.Max(stretch.Start, slots[^1].Slot.End + Duration.FromMinutes(BreakMinutes));
            Instant start = RoundUp(earliest, zone);
            int length = (int)Math.Floor((stretch.End - start).TotalMinutes);
            LocalDate day = start.InZone(zone).Date;
            bool light = stretch.Start >= midnights[0];
            (int blocks, int minutes) = light
                ? BestFill(length, LongestLightMinutes, MostLightBlocks - slots.Concat(kept).Count(s => s.Slot.Date == day))
                : BestFill(length, LongestMinutes, int.MaxValue);
            for (int left = blocks; left > 0; left--)
            {
                // Lengths differ by one step at most, the longer ones first.
                int each = ((minutes / StepMinutes) + left - 1) / left * StepMinutes;
                LocalDate date = start.InZone(zone).Date;
                slots.Add(new(new(start, each, date, 0, light), stretch.WindowOn(date)));
                start += Duration.FromMinutes(each + BreakMinutes);
                minutes -= each;
            }
        }

        return slots;
    }

    // In time order; slots of one window share its number.
    private static ImmutableArray<Slot> Numbered(IEnumerable<Placed> placed)
    {
        ImmutableArray<Slot>.Builder slots = ImmutableArray.CreateBuilder<Slot>();
        (int, LocalDate) last = (-1, default);
        int number = 0;
        foreach (Placed next in placed.OrderBy(p => p.Slot.Start))
        {
            number += next.Window == last ? 0 : 1;
            last = next.Window;
            slots.Add(next.Slot with { Window = number });
        }

        return slots.ToImmutable();
    }

    private static IEnumerable<Stretch> SplitAt(IEnumerable<Stretch> stretches, Instant at)
    {
        foreach (Stretch stretch in stretches)
        {
            if (stretch.Start < at && at < stretch.End)
            {
                yield return stretch with { End = at };
                yield return stretch with { Start = at };
            }
            else
            {
                yield return stretch;
            }
        }
    }

    /// <summary>How many blocks, with breaks between, use most of a stretch, and how many minutes they hold together; the fewest blocks among equals.</summary>
    private static (int Blocks, int Minutes) BestFill(int length, int longest, int mostBlocks)
    {
        (int Blocks, int Minutes) best = (0, 0);
        for (int blocks = 1; blocks <= mostBlocks; blocks++)
        {
            int minutes = (length - (BreakMinutes * (blocks - 1))) / StepMinutes * StepMinutes;
            if (minutes < ShortestMinutes * blocks)
            {
                break;
            }

            minutes = Math.Min(minutes, longest * blocks);
            if (minutes > best.Minutes)
            {
                best = (blocks, minutes);
            }
        }

        return best;
    }

    private static List<Placed> Cap(List<Placed> slots, int capMinutes, List<Placed> kept, out int cappedDays, out int cappedMinutes)
    {
        List<Placed> all = [];
        cappedDays = 0;
        cappedMinutes = 0;
        foreach (IGrouping<LocalDate, Placed> day in slots.GroupBy(s => s.Slot.Date))
        {
            int cap = Math.Max(0, capMinutes - kept.Where(k => k.Slot.Date == day.Key).Sum(k => k.Slot.Minutes));
            List<Placed> today = WithinCap(day, cap / StepMinutes * StepMinutes);
            int dropped = day.Sum(s => s.Slot.Minutes) - today.Sum(s => s.Slot.Minutes);
            all.AddRange(today);
            cappedDays += dropped > 0 ? 1 : 0;
            cappedMinutes += dropped;
        }

        return all;
    }

    private static List<Placed> WithinCap(IEnumerable<Placed> day, int capMinutes)
    {
        List<Placed> kept = [];
        int left = capMinutes;
        foreach (Placed placed in day)
        {
            if (left is > 0 and < ShortestMinutes)
            {
                // Too little is left for a block: earlier ones give up minutes, if they can, so that the cap is used in full.
                // Without this, more free time could mean less study.
                int missing = ShortestMinutes - left;
                if (kept.Sum(s => s.Slot.Minutes - ShortestMinutes) < missing)
                {
                    break;
                }

                for (int i = kept.Count - 1; missing > 0; i--)
                {
                    int give = Math.Min(missing, kept[i].Slot.Minutes - ShortestMinutes);
                    kept[i] = kept[i].Lasting(kept[i].Slot.Minutes - give);
                    missing -= give;
                }

                left = ShortestMinutes;
            }

            int minutes = Math.Min(placed.Slot.Minutes, left);
            if (minutes < ShortestMinutes)
            {
                break;
            }

            kept.Add(placed.Lasting(minutes));
            left -= minutes;
        }

        return kept;
    }

    /// <summary>The next wall-clock time that is a multiple of five minutes.</summary>
    private static Instant RoundUp(Instant instant, DateTimeZone zone)
    {
        long step = StepMinutes * NodaConstants.NanosecondsPerMinute;
        long past = instant.InZone(zone).TimeOfDay.NanosecondOfDay % step;
        return past == 0 ? instant : instant + Duration.FromNanoseconds(step - past);
    }

    private readonly record struct Stretch(Instant Start, Instant End, int Window, bool LongerThanDay)
    {
        public (int, LocalDate) WindowOn(LocalDate date) => (Window, LongerThanDay ? date : default);
    }

    // A slot with what tells its window from others.
    private readonly record struct Placed(Slot Slot, (int, LocalDate) Window)
    {
        public Placed Lasting(int minutes) => this with { Slot = Slot with { Minutes = minutes } };
    }
}
