using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Deciding;

/// <summary>Compares hours a week.</summary>
public static class HoursAdvisor
{
    /// <summary>Less pass chance than this is not worth hours (an assumption).</summary>
    public const double SmallGain = 0.01;

    /// <summary>Half, three quarters, as it is, and two, four and six hours more.</summary>
    public static ImmutableArray<int> Usual(FreeTime free)
    {
        int now = FreeTimeScaling.WeeklyMinutes(free);
        int most = FreeTimeScaling.MostWeeklyMinutes(free);
        return [.. new[] { now / 2, now * 3 / 4, now, now + 120, now + 240, now + 360 }.Select(m => Math.Min(m, Math.Max(now, most))).Distinct().Order()];
    }

    /// <summary>Compares minutes a week.</summary>
    /// <param name="standing">The person's standing.</param>
    /// <param name="free">When the person can study.</param>
    /// <param name="busy">When not.</param>
    /// <param name="from">When study begins.</param>
    /// <param name="examDay">The day of the exam.</param>
    /// <param name="weeklyMinutes">Minutes a week to compare; as it is now is always among them.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <remarks>Cost: one plan an option.</remarks>
    public static HoursAdvice Compare(
        CandidateStanding standing,
        FreeTime free,
        IReadOnlyList<Interval> busy,
        ZonedDateTime from,
        LocalDate examDay,
        ImmutableArray<int> weeklyMinutes,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(standing);
        int now = FreeTimeScaling.WeeklyMinutes(free);
        ImmutableArray<HoursOption> options = [.. weeklyMinutes.Append(now).Distinct().Order()
            .AsParallel().AsOrdered().WithCancellation(cancellation)
            .Select(minutes =>
            {
                PolicyDrafts drafts = PolicyDrafts.Make(standing, FreeTimeScaling.ToWeeklyMinutes(free, minutes), busy, from, examDay, cancellation: cancellation);
                return new HoursOption(minutes, minutes == now, drafts.AfterOptimised.PassChance, drafts.Optimised.Minutes);
            })];
        double most = options.Max(o => o.PassChance);
        HoursOption enough = options.First(o => o.PassChance >= most - SmallGain);
        return new HoursAdvice(options, enough.WeeklyMinutes, Reason(options, enough));
    }

    private static string Reason(ImmutableArray<HoursOption> options, HoursOption enough)
    {
        HoursOption now = options.First(o => o.Now);
        HoursOption most = options[^1];
        if (enough.WeeklyMinutes <= now.WeeklyMinutes)
        {
            return enough.WeeklyMinutes < now.WeeklyMinutes
                ? $"{Hours(enough.WeeklyMinutes)} a week do as much as the {Hours(now.WeeklyMinutes)} there are now ({PlanSentences.Percent(enough.PassChance)}): the rest is better spent resting."
                : $"More hours than now would add less than a point to {PlanSentences.Percent(now.PassChance)}: rest instead.";
        }

        double perHour = (most.PassChance - now.PassChance) * 60 / (most.WeeklyMinutes - now.WeeklyMinutes);
        return $"With {Hours(most.WeeklyMinutes)} a week instead of {Hours(now.WeeklyMinutes)} the pass chance goes from {PlanSentences.Percent(now.PassChance)} to {PlanSentences.Percent(most.PassChance)}: about {(perHour * 100).ToString("F1", CultureInfo.InvariantCulture)} points for each hour a week.";
    }

    private static string Hours(int minutes) => string.Create(CultureInfo.InvariantCulture, $"{minutes / 60.0:0.#} hours");
}
