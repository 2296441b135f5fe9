using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Deciding;

/// <summary>Compares exam dates: pass chance with the best plan up to each, fees, and what the owner's rules allow.</summary>
public static class DateAdvisor
{
    /// <summary>A week that adds less than this to the pass chance is not worth waiting for (an assumption).</summary>
    public const double SmallGain = 0.01;

    private const int DaysInWeek = 7;

    /// <summary>The booked date and the same weekday of the next weeks.</summary>
    public static ImmutableArray<LocalDate> WeekByWeek(LocalDate booked, int weeks)
        => [.. Enumerable.Range(0, weeks + 1).Select(w => booked.PlusDays(w * DaysInWeek))];

    /// <summary>Compares dates.</summary>
    /// <param name="standing">The person's standing.</param>
    /// <param name="sittings">Days on which the person sat the official exam, in any order: those the retake rule speaks of.</param>
    /// <param name="free">When the person can study.</param>
    /// <param name="busy">When not, up to the last date.</param>
    /// <param name="from">When study begins.</param>
    /// <param name="booked">The date booked now, if any.</param>
    /// <param name="dates">Dates to compare, in any order.</param>
    /// <param name="terms">Fees, deadlines, target.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <remarks>Cost: one plan a date.</remarks>
    public static DateAdvice Compare(
        CandidateStanding standing,
        IReadOnlyCollection<LocalDate> sittings,
        FreeTime free,
        IReadOnlyList<Interval> busy,
        ZonedDateTime from,
        LocalDate? booked,
        ImmutableArray<LocalDate> dates,
        SittingTerms terms,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentNullException.ThrowIfNull(sittings);
        ArgumentNullException.ThrowIfNull(terms);
        LocalDate? earliest = standing.Exam.Retake?.EarliestDate([.. sittings.Distinct()]);
        ImmutableArray<LocalDate> wanted = [.. dates.Concat(booked is { } own ? [own] : []).Distinct().Order()];
        ImmutableArray<DateOption> options = [.. wanted
            .AsParallel().AsOrdered().WithCancellation(cancellation)
            .Select(date =>
            {
                PolicyDrafts drafts = PolicyDrafts.Make(standing, free, busy, from, date, cancellation: cancellation);
                double pass = drafts.AfterOptimised.PassChance;
                return new DateOption(
                    date,
                    date == booked,
                    pass,
                    drafts.Now.PassChance,
                    drafts.Optimised.Minutes,
                    Fees(terms, booked is not null && date != booked, pass),
                    Barred(terms, date, booked, from.Date, earliest));
            })];
        (DateOption? best, string reason) = Choose(options, terms);
        return new DateAdvice(terms, options, earliest, best, reason);
    }

    private static decimal? Fees(SittingTerms terms, bool moves, double pass)
        => terms.PostponeFee is null && terms.RetakeFee is null
            ? null
            : (moves ? terms.PostponeFee ?? 0 : 0) + ((terms.RetakeFee ?? 0) * (decimal)(1 - pass));

    private static string? Barred(SittingTerms terms, LocalDate date, LocalDate? booked, LocalDate today, LocalDate? earliest)
        => date < today ? "in the past"
            : date < earliest ? $"the retake rule allows none before {Iso(earliest.Value)}"
            : date > terms.LastDate ? $"the exam may be sat until {Iso(terms.LastDate.Value)} only"
            : booked is not null && date != booked && today > terms.PostponeUntil ? $"the booked date could be moved until {Iso(terms.PostponeUntil.Value)} only"
            : null;

    private static (DateOption? Best, string Reason) Choose(ImmutableArray<DateOption> options, SittingTerms terms)
    {
        DateOption[] allowed = [.. options.Where(o => o.Barred is null)];
        if (allowed.Length == 0)
        {
            return (null, "None of these dates is allowed by the rules given.");
        }

        DateOption first = allowed.FirstOrDefault(o => o.Booked) ?? allowed[0];
        if (allowed.FirstOrDefault(o => o.PassChance >= terms.Target) is { } enough)
        {
            return enough == first || enough.Date < first.Date
                ? (enough, $"On {Iso(enough.Date)} the pass chance is {PlanSentences.Percent(enough.PassChance)}, which reaches the {PlanSentences.Percent(terms.Target)} asked for: nothing speaks for waiting longer.")
                : (enough, $"{Iso(enough.Date)} is the first date that reaches the {PlanSentences.Percent(terms.Target)} asked for: {PlanSentences.Percent(enough.PassChance)}, against {PlanSentences.Percent(first.PassChance)} on {Iso(first.Date)}.");
        }

        int at = 0;
        while (at + 1 < allowed.Length && GainPerWeek(allowed[at], Rest(at)) >= SmallGain)
        {
            at++;
        }

        DateOption best = allowed[at];
        string none = $"No date reaches the {PlanSentences.Percent(terms.Target)} asked for.";
        return best == allowed[^1] && allowed.Length > 1
            ? (best, $"{none} The pass chance still grows up to {Iso(best.Date)} ({PlanSentences.Percent(best.PassChance)}): look at later dates too, or at more hours a week.")
            : (best, $"{none} Up to {Iso(best.Date)} waiting helps ({PlanSentences.Percent(best.PassChance)}); after that a week adds less than a point.");

        // The steepest of the later dates: one flat week, a holiday perhaps, must not end the search.
        DateOption Rest(int from) => allowed[(from + 1)..].MaxBy(o => GainPerWeek(allowed[from], o))!;
    }

    private static double GainPerWeek(DateOption from, DateOption to)
        => (to.PassChance - from.PassChance) * DaysInWeek / Math.Max(1, Period.DaysBetween(from.Date, to.Date));

    private static string Iso(LocalDate date) => date.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture);
}
