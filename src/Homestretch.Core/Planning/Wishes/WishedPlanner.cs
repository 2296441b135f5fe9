using System.Collections.Immutable;

using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Planning.Wishes;

/// <summary>Lays a plan that obeys a coach's wishes, and says what they cost.</summary>
public static class WishedPlanner
{
    /// <summary>A plan from <paramref name="from"/> to the exam in which every wish is obeyed, by the practice order and the optimised policy alike.</summary>
    /// <param name="standing">Where the person stands.</param>
    /// <param name="free">When the person can study.</param>
    /// <param name="busy">When the person cannot.</param>
    /// <param name="from">When the plan begins.</param>
    /// <param name="examDay">The day of the exam; nothing is planned on it.</param>
    /// <param name="wishes">What is wished.</param>
    /// <param name="chosen">The policy whose blocks to return.</param>
    /// <param name="learning">Assumptions on learning; those of the standing when null.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>The plan, or why the wishes contradict each other or cannot be had.</returns>
    /// <exception cref="ArgumentException">A wish names a topic that the exam does not have.</exception>
    /// <remarks>Each policy's blocks are made around the pinned ones and changed as little as the wishes need; the optimised ones are then searched on with the wishes as rules. Cost: about three plans.</remarks>
    public static WishResult Plan(
        CandidateStanding standing,
        FreeTime free,
        IReadOnlyList<Interval> busy,
        ZonedDateTime from,
        LocalDate examDay,
        CoachWishes wishes,
        Policy chosen = Policy.Optimised,
        LearningAssumptions? learning = null,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentNullException.ThrowIfNull(free);
        ArgumentNullException.ThrowIfNull(busy);
        ArgumentNullException.ThrowIfNull(wishes);
        ImmutableArray<string> topics = [.. standing.Exam.Topics.Select(t => t.Name)];
        if (wishes.Topics.FirstOrDefault(t => !topics.Contains(t)) is { } stranger)
        {
            throw new ArgumentException($"The exam has no topic '{stranger}'.", nameof(wishes));
        }

        PinnedSlots pinned = PinnedSlots.Find(free, busy, from, examDay, wishes.Pins);
        ImmutableArray<string> refusals = [.. Contradictions(wishes, topics), .. pinned.Refusals, .. TooMuch(wishes, pinned.Search)];
        if (!refusals.IsEmpty)
        {
            return new(null, refusals);
        }

        PolicyDrafts without = PolicyDrafts.Make(standing, free, busy, from, examDay, learning, cancellation);
        PlanDrafter drafter = new(standing, without.Coarse, pinned.Search.Slots, examDay);
        PlanDraft practice = drafter.PracticeOrder();
        PlanDraft? wishedPractice = drafter.Obeying(practice, wishes, search: false, cancellation);
        PlanDraft[] optimised = [.. new[] { wishedPractice, drafter.Obeying(practice, wishes, search: true, cancellation), drafter.Obeying(drafter.Optimised(practice, cancellation), wishes, search: true, cancellation) }.OfType<PlanDraft>()];
        if (wishedPractice is null || optimised.Length == 0)
        {
            return new(null, ["There is no room for all these wishes together: one window holds two topics at most, each side by side, and what is new has to come before the last days."]);
        }

        PlanDraft best = optimised.MaxBy(d => without.Full.PassChance(d.Effort))!;
        PolicyDrafts drafts = without with
        {
            Search = pinned.Search,
            Practice = wishedPractice,
            Optimised = best,
            AfterPractice = without.Full.Outcome(wishedPractice.Effort),
            AfterOptimised = without.Full.Outcome(best.Effort),
        };
        (PlanDraft draft, ScoreOutcome after) = drafts.Of(chosen);
        StudyPlan plan = Planner.Describe(standing, chosen, draft, after, drafts, drafts.Outcomes, from, examDay, free.Zone, BlockNames.FromStart(standing.Exam));
        double cost = without.Of(chosen).After.PassChance - after.PassChance;
        string sentence = WishSentences.Of(wishes, cost, free);
        return new(
            plan with
            {
                Wishes = new WishCost(wishes, cost, sentence),
                Notes = [sentence, .. plan.Notes],
                LeftAlone = [.. plan.LeftAlone.Select(l => wishes.Avoid.Contains(l.Topic.Name) ? l with { Reason = "Left out, as was asked." } : l)],
            },
            []);
    }

    private static IEnumerable<string> Contradictions(CoachWishes wishes, ImmutableArray<string> topics)
    {
        foreach (string topic in wishes.Avoid)
        {
            string[] wanted =
            [
                .. wishes.Include.Contains(topic) ? ["included"] : Array.Empty<string>(),
                .. wishes.AtLeast.Any(m => m.Topic == topic) ? ["given a least number of minutes"] : Array.Empty<string>(),
                .. wishes.Pins.Any(p => p.Topic == topic) ? ["pinned"] : Array.Empty<string>(),
            ];
            if (wanted.Length > 0)
            {
                yield return $"{topic} cannot be both avoided and {string.Join(" and ", wanted)}.";
            }
        }

        if (topics.All(wishes.Avoid.Contains))
        {
            yield return "Every topic is avoided; leave at least one.";
        }
    }

    private static IEnumerable<string> TooMuch(CoachWishes wishes, SlotSearch search)
    {
        int wanted = wishes.AtLeast.GroupBy(m => m.Topic).Sum(g => g.Max(m => m.Minutes));
        if (wanted > search.Minutes)
        {
            yield return $"At least {wanted} minutes were asked for; the free time holds {search.Minutes}.";
        }
    }
}
