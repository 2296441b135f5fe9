using System.Collections.Immutable;

using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Planning;

/// <summary>Lays a plan into a person's calendar and says what it is worth.</summary>
public static class Planner
{
    /// <summary>A plan from <paramref name="from"/> to the exam, with the outcome of every policy.</summary>
    /// <param name="standing">Where the person stands.</param>
    /// <param name="free">When the person can study.</param>
    /// <param name="busy">When the person cannot.</param>
    /// <param name="from">When the plan begins.</param>
    /// <param name="examDay">The day of the exam; nothing is planned on it.</param>
    /// <param name="chosen">The policy whose blocks to return.</param>
    /// <param name="learning">Assumptions on learning; the documented defaults when null.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <remarks>The optimised plan is never worse than the practice order: where the practice order's blocks turn out better, they are taken.
    /// Cost: about (blocks + topics) evaluations of the score model at coarse detail.</remarks>
    public static StudyPlan Plan(
        CandidateStanding standing,
        FreeTime free,
        IReadOnlyList<Interval> busy,
        ZonedDateTime from,
        LocalDate examDay,
        Policy chosen = Policy.Optimised,
        LearningAssumptions? learning = null,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentNullException.ThrowIfNull(free);
        ArgumentNullException.ThrowIfNull(busy);
        PolicyDrafts drafts = PolicyDrafts.Make(standing, free, busy, from, examDay, learning, cancellation);
        (PlanDraft draft, ScoreOutcome after) = drafts.Of(chosen);
        return Describe(standing, chosen, draft, after, drafts, drafts.Outcomes, from, examDay, free.Zone, BlockNames.FromStart(standing.Exam));
    }

    /// <summary>The plan with the blocks of a draft and everything there is to say of them.</summary>
    /// <param name="standing">Where the person stands.</param>
    /// <param name="chosen">The policy whose blocks they are.</param>
    /// <param name="draft">The blocks.</param>
    /// <param name="after">What they lead to.</param>
    /// <param name="drafts">What every policy would do from scratch.</param>
    /// <param name="outcomes">The outcomes to show beside one another.</param>
    /// <param name="from">When the plan begins.</param>
    /// <param name="examDay">The day of the exam.</param>
    /// <param name="zone">The person's zone.</param>
    /// <param name="names">Names the blocks, in time order.</param>
    internal static StudyPlan Describe(
        CandidateStanding standing,
        Policy chosen,
        PlanDraft draft,
        ScoreOutcome after,
        PolicyDrafts drafts,
        ImmutableArray<PolicyOutcome> outcomes,
        ZonedDateTime from,
        LocalDate examDay,
        DateTimeZone zone,
        Func<PlacedPiece, string> names)
    {
        PlanSentences sentences = new(standing, draft, drafts.Now, after, drafts.Coarse);
        return new StudyPlan(
            chosen,
            from,
            examDay,
            zone,
            outcomes,
            MinutesOf(standing, draft, drafts.Now, after, sentences),
            [.. draft.Order.Where(t => draft.MinutesOn(t) == 0).Select(t => new LeftAlone(standing.Exam.Topics[t], sentences.ForLeftAlone(t)))],
            BlocksOf(standing, draft, zone, sentences, names),
            drafts.Search.Minutes,
            [.. drafts.Search.Notes, .. sentences.Notes(drafts.Search.Minutes)],
            drafts.Full.Uncertainty(draft.Effort))
        {
            LightFrom = drafts.Search.LightFrom,
        };
    }

    private static ImmutableArray<TopicMinutes> MinutesOf(CandidateStanding standing, PlanDraft draft, ScoreOutcome now, ScoreOutcome after, PlanSentences sentences)
    {
        // Topics that are only reviewed come after those that are studied.
        int[] order =
        [
            .. draft.Pieces.GroupBy(p => p.Topic)
                .OrderBy(g => g.Min(p => p.Purpose == BlockPurpose.Review) ? 1 : 0)
                .ThenBy(g => g.Min(p => p.Slot.Start))
                .Select(g => g.Key),
        ];
        return [.. order.Select((t, i) => new TopicMinutes(
            standing.Exam.Topics[t],
            draft.MinutesOn(t),
            i + 1,
            after.TopicExpected[t] - now.TopicExpected[t],
            sentences.ForMinutes(t)))];
    }

    private static ImmutableArray<StudyBlock> BlocksOf(CandidateStanding standing, PlanDraft draft, DateTimeZone zone, PlanSentences sentences, Func<PlacedPiece, string> names)
    {
        // What was studied before counts among a topic's blocks.
        int[] seen = [.. standing.Topics.Select((_, t) => PastBlocks.Of(standing.Study.Of(t)).All)];
        int[] total = [.. seen.Select((past, t) => past + draft.Pieces.Count(p => p.Topic == t))];
        ImmutableArray<StudyBlock>.Builder blocks = ImmutableArray.CreateBuilder<StudyBlock>(draft.Pieces.Length);
        foreach (PlacedPiece piece in draft.Pieces)
        {
            blocks.Add(new StudyBlock(
                names(piece),
                piece.Slot.Start.InZone(zone),
                piece.Slot.End.InZone(zone),
                standing.Exam.Topics[piece.Topic],
                piece.Purpose,
                sentences.ForBlock(piece, ++seen[piece.Topic], total[piece.Topic])));
        }

        return blocks.MoveToImmutable();
    }
}
