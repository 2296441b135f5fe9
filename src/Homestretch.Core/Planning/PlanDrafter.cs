using System.Collections.Immutable;

using Homestretch.Core.Forecasting;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Planning;

/// <summary>Makes each policy's blocks from slots.</summary>
internal sealed class PlanDrafter
{
    // Most plans meet a topic on about this many days; only used to guess retention before the blocks are placed.
    private const int TypicalStudyDays = 3;

    private const int TopicsPerWindow = 2;
    private const int ImprovementRounds = 3;

    private readonly CandidateStanding standing;
    private readonly ScoreModel model;
    private readonly LocalDate examDay;
    private readonly Slot[] study;
    private readonly Slot[] light;
    private readonly double pieceHours;
    private readonly double retainedHours;
    private readonly double[] past;

    public PlanDrafter(CandidateStanding standing, ScoreModel coarse, ImmutableArray<Slot> slots, LocalDate examDay)
    {
        this.standing = standing;
        this.examDay = examDay;
        model = coarse;
        past = PlanDraft.EffortOf([], standing, examDay, coarse);
        study = [.. slots.Where(s => !s.LightOnly)];
        light = [.. slots.Where(s => s.LightOnly)];
        Slot[] counted = study.Length > 0 ? study : light;
        double share = study.Length > 0 ? 1 : model.Learning.Review.Gain;
        if (counted.Length > 0)
        {
            pieceHours = share * counted.Average(s => s.Minutes / 60.0);
            retainedHours = share * counted.Average(s => s.Minutes / 60.0 * model.Learning.Retention(Period.DaysBetween(s.Date, examDay), TypicalStudyDays));
        }
    }

    /// <summary>Mean hours in a piece.</summary>
    public double PieceHours => pieceHours;

    public PlanDraft PracticeOrder()
    {
        ImmutableArray<int> order = Planning.PracticeOrder.Rank(standing);
        if (pieceHours == 0)
        {
            return PlanDraft.Empty(order, standing, examDay, model);
        }

        Allocation allocation = Planning.PracticeOrder.Allocate(standing, model, past, pieceHours, Pieces);
        return Draft(order, allocation.Sequence, reviewAll: true, allocation.Enough);
    }

    /// <summary>The optimised draft, worked on until it is at least as good as <paramref name="rival"/> or no time is left.</summary>
    public PlanDraft Optimised(PlanDraft rival, CancellationToken cancellation)
    {
        double target = model.PassChance(rival.Effort);
        PlanDraft draft = Optimised(Math.Max(Allocator.SurePass, target), cancellation);
        return draft.Enough && model.PassChance(draft.Effort) < target - Allocator.SamePass ? Optimised(enoughAt: 1, cancellation) : draft;
    }

    private PlanDraft Optimised(double enoughAt, CancellationToken cancellation)
    {
        if (pieceHours == 0)
        {
            return PlanDraft.Empty([.. Enumerable.Range(0, standing.Topics.Length)], standing, examDay, model);
        }

        ImmutableArray<int> order = Allocator.Rank(standing.Exam, model, past, retainedHours);
        Allocation allocation = Allocator.Optimise(standing.Exam, model, past, retainedHours, Pieces, enoughAt, cancellation);
        int[] counts = allocation.Counts(order.Length);
        PlanDraft best = Draft(order, BlockPlacer.Interleave(order, counts), reviewAll: false, allocation.Enough);
        return Improve(best, counts, cancellation);
    }

    /// <summary>Pieces that the calendar holds.</summary>
    public int Pieces => study.Length > 0 ? study.Length : light.Length;

    // Allocation took retention as equal for all; now that blocks have dates, try moving single pieces from topic to topic.
    private PlanDraft Improve(PlanDraft best, int[] counts, CancellationToken cancellation)
    {
        double[] piece = [.. model.BreadthFactors.Select(b => b * retainedHours)];
        EffortChange[] gains = new EffortChange[counts.Length];
        EffortChange[] losses = new EffortChange[counts.Length];
        for (int round = 0; round < ImprovementRounds; round++)
        {
            cancellation.ThrowIfCancellationRequested();
            double pass = model.Marginal(best.Effort, piece, gains, losses);
            int[] granted = [.. Enumerable.Range(0, counts.Length).Where(t => counts[t] > 0)];
            if (Allocator.Exchange(standing.Exam, granted, gains, losses) is not ( >= 0, _) exchange)
            {
                return best;
            }

            counts[exchange.From]--;
            counts[exchange.To]++;
            PlanDraft other = Draft(best.Order, BlockPlacer.Interleave(best.Order, counts), reviewAll: false, best.Enough);
            if (model.PassChance(other.Effort) <= pass)
            {
                return best;
            }

            best = other;
        }

        return best;
    }

    /// <summary>The blocks of a sequence of topics.</summary>
    public PlanDraft Draft(ImmutableArray<int> order, ImmutableArray<int> sequence, bool reviewAll, bool enough)
    {
        List<PlacedPiece> pieces = [];
        if (study.Length > 0)
        {
            int[] topics = BlockPlacer.Place(study, sequence);
            AddStudy(topics, pieces);
            AddReviews(order, pieces, reviewAll);
        }
        else
        {
            int[] topics = BlockPlacer.Place(light, sequence);
            pieces.AddRange(light.Zip(topics).Where(p => p.Second != BlockPlacer.Unused).Select(p => new PlacedPiece(p.First, p.Second, BlockPurpose.Review)));
        }

        ImmutableArray<PlacedPiece> placed = [.. pieces.OrderBy(p => p.Slot.Start)];
        return new PlanDraft(placed, order, PlanDraft.EffortOf(placed, standing, examDay, model), enough);
    }

    private void AddStudy(int[] topics, List<PlacedPiece> pieces)
    {
        for (int t = 0; t < standing.Topics.Length; t++)
        {
            int[] own = [.. Enumerable.Range(0, topics.Length).Where(i => topics[i] == t)];
            BlockPurpose[] purposes = Purposes(own.Length, standing.Topics[t].Level.Band);
            pieces.AddRange(own.Select((slot, i) => new PlacedPiece(study[slot], t, purposes[i])));
        }
    }

    // Learn first, a quiz last, practice between; a weak topic needs more of the first.
    private static BlockPurpose[] Purposes(int blocks, Band band)
    {
        BlockPurpose[] purposes = new BlockPurpose[blocks];
        Array.Fill(purposes, BlockPurpose.Practise);
        int learn = blocks <= 2 ? Math.Min(1, blocks) : Math.Clamp(band == Band.Weak ? blocks / 2 : blocks / 3, 1, blocks - 2);
        Array.Fill(purposes, BlockPurpose.Learn, 0, learn);
        if (blocks >= 2)
        {
            purposes[^1] = BlockPurpose.Quiz;
        }

        return purposes;
    }

    // The last days: first what has been met on one day only, then the other topics of the plan, then (in the practice order) a quick look at the rest.
    private void AddReviews(ImmutableArray<int> order, List<PlacedPiece> pieces, bool reviewAll)
    {
        ILookup<int, PlacedPiece> byTopic = pieces.ToLookup(p => p.Topic);
        int[] met = [.. order.Where(byTopic.Contains)];
        int[] single = [.. met.Where(t => byTopic[t].Select(p => p.Slot.Date).Distinct().Count() == 1)];
        IEnumerable<int> rest = reviewAll ? order.Except(met) : [];
        Queue<int> wanted = new(single.Concat(rest).Concat(met.Except(single)));
        foreach (IGrouping<int, Slot> window in light.GroupBy(s => s.Window))
        {
            HashSet<int> inWindow = [.. pieces.Where(p => p.Slot.Window == window.Key).Select(p => p.Topic)];
            foreach (Slot slot in window)
            {
                // Once every topic has had its turn the round begins again.
                if (wanted.Count == 0)
                {
                    wanted = new(met);
                }

                if (wanted.TryPeek(out int topic) && (inWindow.Contains(topic) || inWindow.Count < TopicsPerWindow))
                {
                    wanted.Dequeue();
                    inWindow.Add(topic);
                    pieces.Add(new PlacedPiece(slot, topic, BlockPurpose.Review));
                }
            }
        }
    }
}
