using System.Collections.Immutable;

using Homestretch.Core.Forecasting;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Replanning;
using Homestretch.Core.Planning.Wishes;

using NodaTime;

namespace Homestretch.Core.Planning;

/// <summary>A plan from now to the exam for one person.</summary>
/// <param name="Chosen">The policy whose blocks these are.</param>
/// <param name="From">When the plan begins.</param>
/// <param name="ExamDay">The day of the exam.</param>
/// <param name="Zone">The zone in which the person lives.</param>
/// <param name="Policies">Doing nothing, the practice order and the optimised plan, in that order.</param>
/// <param name="Minutes">Topics with study time, in the order of study.</param>
/// <param name="LeftAlone">Topics without.</param>
/// <param name="Blocks">Blocks in time order.</param>
/// <param name="FreeMinutes">Study minutes that the free time could hold under the rules of a humane schedule.</param>
/// <param name="Notes">What a person should know about this plan: no free time, exam too near, daily cap above eight hours, and the like.</param>
/// <param name="Uncertainty">Where the uncertainty about the number of correct answers after its blocks comes from.</param>
public sealed record StudyPlan(
    Policy Chosen,
    ZonedDateTime From,
    LocalDate ExamDay,
    DateTimeZone Zone,
    ImmutableArray<PolicyOutcome> Policies,
    ImmutableArray<TopicMinutes> Minutes,
    ImmutableArray<LeftAlone> LeftAlone,
    ImmutableArray<StudyBlock> Blocks,
    int FreeMinutes,
    ImmutableArray<string> Notes,
    ScoreUncertainty Uncertainty)
{
    /// <summary>The first day that is kept for light review.</summary>
    public LocalDate LightFrom { get; init; }

    /// <summary>What it changes against an earlier plan; null where it was made from scratch.</summary>
    public PlanRevision? Revision { get; init; }

    /// <summary>The wishes it obeys and what they cost; null where there were none.</summary>
    public WishCost? Wishes { get; init; }

    /// <summary>The day that names calendar events: that of the exam, as the first plan of the line had it.</summary>
    public LocalDate CalendarDay => Revision?.CalendarDay ?? ExamDay;

    /// <summary>The outcome of one policy.</summary>
    public PolicyOutcome Outcome(Policy policy) => Policies.First(p => p.Policy == policy);
}
