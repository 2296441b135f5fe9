using System.Collections.Immutable;

using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Planning;

/// <summary>The blocks of every policy and what they lead to, before anything is said about them.</summary>
/// <param name="Search">The slots that the free time holds.</param>
/// <param name="Full">The score model that figures are taken from.</param>
/// <param name="Coarse">The score model that plans are compared on.</param>
/// <param name="Nothing">No blocks.</param>
/// <param name="Practice">The practice order.</param>
/// <param name="Optimised">The optimised blocks; the practice order's where those turn out better.</param>
/// <param name="Now">What no blocks lead to.</param>
/// <param name="AfterPractice">What the practice order leads to.</param>
/// <param name="AfterOptimised">What the optimised blocks lead to.</param>
internal sealed record PolicyDrafts(
    SlotSearch Search,
    ScoreModel Full,
    ScoreModel Coarse,
    PlanDraft Nothing,
    PlanDraft Practice,
    PlanDraft Optimised,
    ScoreOutcome Now,
    ScoreOutcome AfterPractice,
    ScoreOutcome AfterOptimised)
{
    /// <summary>Doing nothing, the practice order and the optimised plan, in that order.</summary>
    public ImmutableArray<PolicyOutcome> Outcomes => OutcomesWith(Optimised, AfterOptimised);

    /// <summary>The same with other blocks in the place of the optimised ones.</summary>
    public ImmutableArray<PolicyOutcome> OutcomesWith(PlanDraft optimised, ScoreOutcome afterOptimised) =>
    [
        new(Policy.None, Now.PassChance, Now.ExpectedCorrect, 0),
        new(Policy.PracticeOrder, AfterPractice.PassChance, AfterPractice.ExpectedCorrect, Practice.Minutes),
        new(Policy.Optimised, afterOptimised.PassChance, afterOptimised.ExpectedCorrect, optimised.Minutes),
    ];

    /// <summary>Makes them.</summary>
    /// <inheritdoc cref="Planner.Plan" path="/param"/>
    public static PolicyDrafts Make(
        CandidateStanding standing,
        FreeTime free,
        IReadOnlyList<Interval> busy,
        ZonedDateTime from,
        LocalDate examDay,
        LearningAssumptions? learning = null,
        CancellationToken cancellation = default)
        => Make(standing, SlotFinder.Find(free, busy, from, examDay), examDay, learning, cancellation);

    /// <summary>Makes them in slots that were found before.</summary>
    public static PolicyDrafts Make(CandidateStanding standing, SlotSearch search, LocalDate examDay, LearningAssumptions? learning, CancellationToken cancellation)
    {
        ScoreModel full = new(standing, learning);
        ScoreModel coarse = new(standing, learning, QuadratureDetail.Coarse);
        PlanDrafter drafter = new(standing, coarse, search.Slots, examDay);

        PlanDraft nothing = PlanDraft.Empty([.. Enumerable.Range(0, standing.Topics.Length)], standing, examDay, coarse);
        PlanDraft practice = drafter.PracticeOrder();
        PlanDraft optimised = drafter.Optimised(practice, cancellation);
        ScoreOutcome now = full.Outcome(nothing.Effort);
        ScoreOutcome afterPractice = full.Outcome(practice.Effort);
        ScoreOutcome afterOptimised = full.Outcome(optimised.Effort);
        return afterOptimised.PassChance < afterPractice.PassChance
            ? new(search, full, coarse, nothing, practice, practice, now, afterPractice, afterPractice)
            : new(search, full, coarse, nothing, practice, optimised, now, afterPractice, afterOptimised);
    }

    /// <summary>The blocks of one policy alone, without the figures that people see: a third of the cost.</summary>
    /// <inheritdoc cref="Planner.Plan" path="/param"/>
    public static PlanDraft Blocks(
        CandidateStanding standing, FreeTime free, IReadOnlyList<Interval> busy, ZonedDateTime from, LocalDate examDay, Policy chosen = Policy.Optimised, CancellationToken cancellation = default)
    {
        PlanDrafter drafter = new(standing, new ScoreModel(standing, null, QuadratureDetail.Coarse), SlotFinder.Find(free, busy, from, examDay).Slots, examDay);
        PlanDraft practice = drafter.PracticeOrder();
        return chosen == Policy.PracticeOrder ? practice : drafter.Optimised(practice, cancellation);
    }

    /// <summary>The blocks of one policy and what they lead to.</summary>
    public (PlanDraft Draft, ScoreOutcome After) Of(Policy policy) => policy switch
    {
        Policy.None => (Nothing, Now),
        Policy.PracticeOrder => (Practice, AfterPractice),
        _ => (Optimised, AfterOptimised),
    };
}
