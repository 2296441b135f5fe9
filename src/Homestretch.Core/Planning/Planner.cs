using System.Collections.Immutable;
using System.Globalization;
using System.Text;

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
        PlanSentences sentences = new(standing, draft, drafts.Now, after, drafts.Coarse);
        return new StudyPlan(
            chosen,
            from,
            examDay,
            free.Zone,
            drafts.Outcomes,
            MinutesOf(standing, draft, drafts.Now, after, sentences),
            [.. draft.Order.Where(t => draft.MinutesOn(t) == 0).Select(t => new LeftAlone(standing.Exam.Topics[t], sentences.ForLeftAlone(t)))],
            BlocksOf(standing, draft, free.Zone, sentences),
            drafts.Search.Minutes,
            [.. drafts.Search.Notes, .. sentences.Notes(drafts.Search.Minutes)],
            drafts.Full.Uncertainty(draft.Effort));
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

    private static ImmutableArray<StudyBlock> BlocksOf(CandidateStanding standing, PlanDraft draft, DateTimeZone zone, PlanSentences sentences)
    {
        Dictionary<int, int> total = draft.Pieces.GroupBy(p => p.Topic).ToDictionary(g => g.Key, g => g.Count());
        Dictionary<int, int> seen = [];
        string[] slugs = Slugs(standing);
        ImmutableArray<StudyBlock>.Builder blocks = ImmutableArray.CreateBuilder<StudyBlock>(draft.Pieces.Length);
        foreach (PlacedPiece piece in draft.Pieces)
        {
            int number = seen[piece.Topic] = seen.GetValueOrDefault(piece.Topic) + 1;
            blocks.Add(new StudyBlock(
                string.Create(CultureInfo.InvariantCulture, $"{slugs[piece.Topic]}-{number}"),
                piece.Slot.Start.InZone(zone),
                piece.Slot.End.InZone(zone),
                standing.Exam.Topics[piece.Topic],
                piece.Purpose,
                sentences.ForBlock(piece, number, total[piece.Topic])));
        }

        return blocks.MoveToImmutable();
    }

    // Short names for calendar events; topics whose names differ in punctuation only are told apart by a running number.
    private static string[] Slugs(CandidateStanding standing)
    {
        string[] names = [.. standing.Exam.Topics.Select(t => t.Name)];
        string[] slugs = Array.ConvertAll(names, Slug);
        for (int i = 0; i < slugs.Length; i++)
        {
            int earlier = Enumerable.Range(0, names.Length).Count(j => Slug(names[j]) == Slug(names[i]) && string.CompareOrdinal(names[j], names[i]) < 0);
            slugs[i] += earlier == 0 ? string.Empty : string.Create(CultureInfo.InvariantCulture, $"-x{earlier + 1}");
        }

        return slugs;
    }

    private static string Slug(string name)
    {
        StringBuilder slug = new(name.Length);
        foreach (char c in name.Normalize(NormalizationForm.FormKC).ToLowerInvariant())
        {
            if (char.IsLetterOrDigit(c))
            {
                slug.Append(c);
            }
            else if (slug.Length > 0 && slug[^1] != '-')
            {
                slug.Append('-');
            }
        }

        return slug.Length == 0 ? "topic" : slug.ToString().TrimEnd('-');
    }
}
