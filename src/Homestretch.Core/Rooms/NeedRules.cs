using NodaTime;

namespace Homestretch.Core.Rooms;

/// <summary>When a candidate needs the coach. The thresholds are common practice among people who look after others' study; no study is known from which they could be taken.</summary>
public static class NeedRules
{
    /// <summary>How far back a list looks, in days.</summary>
    public const int Week = 7;

    /// <summary>An exam within so many days is near.</summary>
    public const int NearDays = 7;

    /// <summary>Below this pass chance, 0 to 1, a near exam calls for a talk: not sitting it may be better.</summary>
    public const double Even = 0.5;

    /// <summary>A fall of the pass chance of so much in a week, 0 to 1, is more than replanning and rounding move it.</summary>
    public const double Fall = 0.1;

    /// <summary>So many missed sessions in a week are no longer one bad evening.</summary>
    public const int MissedSessions = 3;

    /// <summary>After so many days without a word from somebody who had something to do, a coach asks.</summary>
    public const int SilentDays = 6;

    // Rounding of stored chances must not hide a fall of exactly so much.
    private const double Slack = 1e-9;

    /// <summary>The state of a candidate on a day.</summary>
    public static CandidateState On(LocalDate today, CandidateFigures figures)
    {
        ArgumentNullException.ThrowIfNull(figures);
        int left = Period.DaysBetween(today, figures.ExamDay);
        double? chance = figures.ByDay.PassChanceOn(today);
        double change = chance is { } now ? now - figures.ByDay.PassChanceOn(today.PlusDays(-Week))!.Value : 0;
        (int planned, int done, int missed) = figures.ByDay.Sum(today.PlusDays(-Week), today.PlusDays(-1));
        missed += figures.ByDay.Sum(today, today).Missed;
        return new(left, chance, change, planned, done, [.. Needs(today, figures, left, chance, change, planned, missed)]);
    }

    private static IEnumerable<Need> Needs(LocalDate today, CandidateFigures figures, int left, double? chance, double change, int planned, int missed)
    {
        if (left < 0)
        {
            // What the program forecast is no longer of use; how it ended is.
            if (!figures.HasResult)
            {
                yield return new(NeedKind.NoResult, -left);
            }

            yield break;
        }

        if (figures.HasResult)
        {
            yield break;
        }

        // On the last day nothing need be planned any more.
        if (chance is null || (left > 1 && figures.ByDay.Sum(today, figures.ExamDay).Planned == 0))
        {
            yield return new(NeedKind.NoPlan, 0);
        }

        if (left <= NearDays && chance < Even)
        {
            yield return new(NeedKind.BelowEven, left);
        }

        if (-change >= Fall - Slack)
        {
            yield return new(NeedKind.Fallen, (int)Math.Round(-change * 100));
        }

        if (missed >= MissedSessions)
        {
            yield return new(NeedKind.Missed, missed);
        }

        int silent = Period.DaysBetween(figures.HeardOn, today);
        if (figures.HasLink && silent >= SilentDays && planned > 0)
        {
            yield return new(NeedKind.Silent, silent);
        }

        if (!figures.HasLink)
        {
            yield return new(NeedKind.NoLink, 0);
        }
    }
}
