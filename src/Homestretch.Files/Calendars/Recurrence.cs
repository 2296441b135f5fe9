using Ical.Net;
using Ical.Net.DataTypes;
using Ical.Net.Evaluation;

using NodaTime;

namespace Homestretch.Files.Calendars;

/// <summary>The start times of a recurrence rule. Ical.Net expands the rule on a plain wall clock; the zone is applied here, so that any zone a
/// file defines can be used.</summary>
internal static class Recurrence
{
    // The evaluator works in steps of a year at most; starts this far beyond the end cannot be followed by earlier ones.
    private static readonly NodaTime.Period Slack = NodaTime.Period.FromDays(2);

    /// <summary>Starts from <paramref name="from"/> to <paramref name="to"/> in time order; null when there would be too many to look at.</summary>
    /// <param name="rule">The rule; its UNTIL is replaced.</param>
    /// <param name="start">The first start.</param>
    /// <param name="until">Last possible start, or null.</param>
    /// <param name="from">Starts before this may be left out.</param>
    /// <param name="to">Starts after this are left out.</param>
    /// <param name="budget">What the file may still cost.</param>
    public static IReadOnlyList<CalendarTime>? Starts(
        RecurrenceRule rule, CalendarTime start, CalendarTime? until, Instant from, Instant to, RecurrenceBudget budget)
    {
        bool elapsed = IsElapsed(rule);
        DateTimeZone clock = elapsed ? DateTimeZone.Utc : start.Zone;
        LocalDateTime seed = elapsed ? start.ToInstant().InUtc().LocalDateTime : start.Local;
        LocalDateTime first = from.InZone(clock).LocalDateTime.Minus(Slack);
        LocalDateTime last = to.InZone(clock).LocalDateTime.Plus(Slack);
        if (until is { } u)
        {
            // A date without time lets the whole day through, also for an event that has a time.
            LocalDateTime end = u.IsDate ? u.Local.Date.At(new LocalTime(23, 59, 59)) : u.ToInstant().InZone(clock).LocalDateTime;
            last = LocalDateTime.Min(last, end);
        }

        if (last < seed)
        {
            return [];
        }

        seed = Advance(rule, seed, first);
        if (!budget.TryTake(Cost(rule, seed, LocalDateTime.Max(seed, first), last)))
        {
            return null;
        }

        rule.Until = start.IsDate ? new CalDateTime(last.Date.ToDateOnly()) : new CalDateTime(last.ToDateTimeUnspecified(), null);
        CalDateTime reference = start.IsDate ? new CalDateTime(seed.Date.ToDateOnly()) : new CalDateTime(seed.ToDateTimeUnspecified(), null);
        CalDateTime lookFrom = new(first.ToDateTimeUnspecified(), null, !start.IsDate);
        List<CalendarTime> starts = [];
        try
        {
            foreach (Ical.Net.DataTypes.Period period in new RecurrencePatternEvaluator(rule).Evaluate(reference, rule.Count is null ? lookFrom : null, null))
            {
                LocalDateTime local = LocalDateTime.FromDateTime(period.StartTime.Value);
                if (local > last)
                {
                    break;
                }

                if (local >= first && FitsMonth(rule, local))
                {
                    starts.Add(new CalendarTime(local, clock, start.IsDate));
                }
            }
        }
        catch (EvaluationOutOfRangeException)
        {
            // The rule ran to the end of the calendar without another start; what was found is all there is.
        }

        return starts;
    }

    // "Every 15 minutes" without further conditions means elapsed time, also in the hour that a clock shows twice.
    private static bool IsElapsed(RecurrenceRule rule) => rule.Frequency is FrequencyType.Secondly or FrequencyType.Minutely or FrequencyType.Hourly
        && rule.BySecond.Count + rule.ByMinute.Count + rule.ByHour.Count + rule.ByDay.Count + rule.ByMonthDay.Count + rule.ByYearDay.Count
            + rule.ByWeekNo.Count + rule.ByMonth.Count + rule.BySetPosition.Count == 0;

    // The evaluator lets a weekly rule with BYMONTH run a few days into the neighbouring month.
    private static bool FitsMonth(RecurrenceRule rule, LocalDateTime local) =>
        rule.Frequency != FrequencyType.Weekly || rule.ByMonth.Count == 0 || rule.ByMonth.Contains(local.Month);

    // Walking second by second from years ago to today would take minutes. Whole steps keep the rule in rhythm; counted rules cannot jump.
    private static LocalDateTime Advance(RecurrenceRule rule, LocalDateTime seed, LocalDateTime first)
    {
        if (rule.Count is not null || seed >= first || StepSeconds(rule) is not { } step)
        {
            return seed;
        }

        long seconds = SecondsBetween(seed, first);
        long whole = (seconds / step) - 1;
        return whole <= 0 ? seed : seed.PlusSeconds(whole * step);
    }

    private static long? StepSeconds(RecurrenceRule rule) => rule.Frequency switch
    {
        FrequencyType.Secondly => rule.Interval,
        FrequencyType.Minutely => rule.Interval * 60L,
        FrequencyType.Hourly => rule.Interval * 3600L,
        FrequencyType.Daily => rule.Interval * 86400L,
        FrequencyType.Weekly => rule.Interval * 7 * 86400L,
        _ => null,
    };

    // Steps of the rule times the starts that each step can hold.
    private static long Cost(RecurrenceRule rule, LocalDateTime seed, LocalDateTime firstNeeded, LocalDateTime last)
    {
        LocalDateTime walkFrom = rule.Count is null ? LocalDateTime.Min(firstNeeded, last) : seed;
        long step = StepSeconds(rule) ?? rule.Interval * (rule.Frequency == FrequencyType.Monthly ? 28L : 365L) * 86400;
        long steps = (SecondsBetween(walkFrom, last) / step) + 2;
        int Many(List<int> list) => Math.Max(1, list.Count);
        long inStep = rule.Frequency switch
        {
            FrequencyType.Secondly => 1,
            FrequencyType.Minutely => Many(rule.BySecond),
            FrequencyType.Hourly => (long)Many(rule.BySecond) * Many(rule.ByMinute),
            _ => (long)Many(rule.BySecond) * Many(rule.ByMinute) * Many(rule.ByHour) * Days(rule),
        };
        long cost = steps * inStep;
        bool simple = inStep == 1 && rule.ByMonth.Count + rule.ByDay.Count + rule.ByMonthDay.Count + rule.ByYearDay.Count + rule.ByWeekNo.Count
            + rule.BySetPosition.Count + rule.ByHour.Count + rule.ByMinute.Count + rule.BySecond.Count == 0;
        return simple && rule.Count is { } count ? Math.Min(cost, count) : cost;
    }

    private static int Days(RecurrenceRule rule) => rule.Frequency switch
    {
        FrequencyType.Weekly => rule.ByDay.Count == 0 ? 1 : 7,
        FrequencyType.Monthly => rule.ByDay.Count + rule.ByMonthDay.Count == 0 ? 1 : 31,
        FrequencyType.Yearly => rule.ByDay.Count + rule.ByMonthDay.Count + rule.ByYearDay.Count + rule.ByWeekNo.Count == 0 ? Math.Max(1, rule.ByMonth.Count)
            : rule.ByMonth.Count > 0 && rule.ByYearDay.Count + rule.ByWeekNo.Count == 0 ? 31 * rule.ByMonth.Count
            : 366,
        _ => 1,
    };

    private static long SecondsBetween(LocalDateTime from, LocalDateTime to) => (long)(to.ToDateTimeUnspecified() - from.ToDateTimeUnspecified()).TotalSeconds;
}
