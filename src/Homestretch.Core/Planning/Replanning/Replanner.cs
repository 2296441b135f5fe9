using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Planning.Replanning;

/// <summary>Goes on from an earlier plan and changes as little of it as is worth it.</summary>
public static class Replanner
{
    /// <summary>A block that could stay is moved for half a point of pass chance (assumption: less than that is not worth a person's settled week).</summary>
    public const double DefaultMoveCost = 0.005;

    // Pass chances nearer than this are the same.
    private const double Same = 1e-9;

    /// <summary>A plan from <paramref name="from"/> to the exam that keeps the blocks of an earlier one where they can stay, unless moving them gains enough.</summary>
    /// <param name="standing">Where the person stands, with all study up to <paramref name="from"/>: it tells which blocks of the earlier plan were done.</param>
    /// <param name="free">When the person can study.</param>
    /// <param name="busy">When the person cannot.</param>
    /// <param name="from">When the plan begins.</param>
    /// <param name="examDay">The day of the exam; nothing is planned on it.</param>
    /// <param name="earlier">The earlier plan.</param>
    /// <param name="moveCost">How much pass chance a block that could stay must gain to be moved, 0 to 1.</param>
    /// <param name="learning">Assumptions on learning; those of the standing when null.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <remarks>
    /// A handful of plans is made, from keeping everything to starting anew, whatever the cost; of these the one is taken whose pass chance less the cost of its moves is highest. So a higher cost never moves more,
    /// and the pass chance is never below that of keeping what can be kept. Where a plan from scratch is the earlier plan, nothing changes. Time that was free before may be used at no cost.
    /// Cost: about twice that of a plan made from scratch.
    /// </remarks>
    public static StudyPlan Plan(
        CandidateStanding standing,
        FreeTime free,
        IReadOnlyList<Interval> busy,
        ZonedDateTime from,
        LocalDate examDay,
        EarlierPlan earlier,
        double moveCost = DefaultMoveCost,
        LearningAssumptions? learning = null,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentNullException.ThrowIfNull(free);
        ArgumentNullException.ThrowIfNull(busy);
        ArgumentNullException.ThrowIfNull(earlier);
        ArgumentOutOfRangeException.ThrowIfNegative(moveCost);
        ReplanTask task = new(standing, free, busy, from, examDay, earlier);
        KeptBlocks kept = new(task);

        // The two searches take about as long and know nothing of each other.
        Task<PlanDraft[]> goingOn = Task.Run(
            () => new PlanDrafter(standing, new ScoreModel(standing, learning, QuadratureDetail.Coarse), kept.Search.Slots, examDay).GoingOn(kept.Home, cancellation).ToArray(),
            cancellation);
        PolicyDrafts drafts = PolicyDrafts.Make(standing, task.SlotsAnew(), examDay, learning, cancellation);
        (PlanDraft Draft, double PassChance, int Moved) fresh = (drafts.Optimised, drafts.AfterOptimised.PassChance, kept.Moved(drafts.Optimised));
        bool nothingNew = fresh.Moved == 0 && fresh.Draft.Pieces.All(p => kept.In(p) is not null);
        (PlanDraft Draft, double PassChance, int Moved)[] choices = nothingNew
            ? [fresh]
            : [.. goingOn.GetAwaiter().GetResult().Select(d => (d, drafts.Full.PassChance(d.Effort), kept.Moved(d))), fresh];
        (PlanDraft draft, double best, int moved) = choices[0];
        foreach ((PlanDraft other, double passChance, int otherMoved) in choices[1..])
        {
            double value = passChance - (moveCost * otherMoved);
            if (value > best + Same)
            {
                (draft, best, moved) = (other, value, otherMoved);
            }
        }

        ScoreOutcome after = drafts.Full.Outcome(draft.Effort);
        RevisionList changes = new(task, kept, draft, drafts.Coarse);
        StudyPlan plan = Planner.Describe(standing, Policy.Optimised, draft, after, drafts, drafts.OutcomesWith(draft, after), from, examDay, free.Zone, changes.NameOf);
        return plan with
        {
            Revision = new PlanRevision(
                moveCost,
                draft.Pieces.Count(p => kept.In(p) is not null),
                moved,
                changes.All(plan.Blocks),
                changes.Earlier(),
                choices[0].PassChance,
                drafts.AfterOptimised.PassChance,
                choices[^1].Moved,
                earlier.CalendarDay),
        };
    }
}
