using System.Collections.Immutable;

using Homestretch.Core.Forecasting;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Optimising;
using Homestretch.Core.Planning.Wishes;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Planning;

/// <summary>Makes each policy's blocks from slots.</summary>
internal sealed class PlanDrafter
{
    private const int ExactRounds = 3;

    // What a moved block must gain, from "never" to "anything": the plans between keeping all and starting anew. They do not depend on the cost a person sets, so that a higher one never moves more.
    private static readonly double[] MoveCosts = [1, 0.05, 0.02, 0.01, 0.005, 0.0025, 0.001, 0.0005, 0];

    private readonly CandidateStanding standing;
    private readonly ScoreModel model;
    private readonly LocalDate examDay;
    private readonly ImmutableArray<Slot> slots;
    private readonly SlotTable table;
    private readonly double pieceHours;
    private readonly double retainedHours;
    private readonly double[] past;

    public PlanDrafter(CandidateStanding standing, ScoreModel coarse, ImmutableArray<Slot> slots, LocalDate examDay)
    {
        this.standing = standing;
        this.examDay = examDay;
        this.slots = slots;
        model = coarse;
        past = PlanDraft.EffortOf([], standing, examDay, coarse);
        table = new SlotTable(slots, examDay, model.Learning);
        if (slots.Length > 0)
        {
            pieceHours = table.MeanHours(model.Learning);
            retainedHours = table.RetainedHours(model.Learning);
        }
    }

    /// <summary>Mean hours in a piece.</summary>
    public double PieceHours => pieceHours;

    /// <summary>Pieces that the calendar holds.</summary>
    public int Pieces => table.Study.Length;

    public PlanDraft PracticeOrder()
    {
        ImmutableArray<int> order = Planning.PracticeOrder.Rank(standing);
        if (slots.IsEmpty)
        {
            return PlanDraft.Empty(order, standing, examDay, model);
        }

        Allocation allocation = Planning.PracticeOrder.Allocate(standing, model.Learning, effort => model.PassChance(effort), past, pieceHours, Pieces);
        return Draft(order, allocation.Sequence, reviewAll: true, allocation.Enough);
    }

    /// <summary>The optimised draft: the better of two searches, one from the pieces that add most, one from <paramref name="rival"/>; worked on until it is at least as good as the rival or no time is left.</summary>
    public PlanDraft Optimised(PlanDraft rival, CancellationToken cancellation)
    {
        if (slots.IsEmpty)
        {
            return PlanDraft.Empty([.. Enumerable.Range(0, standing.Topics.Length)], standing, examDay, model);
        }

        QuickScoreModel quick = Quick();
        ImmutableArray<int> order = Allocator.Rank(standing.Exam, quick, past, retainedHours);
        double enoughAt = Math.Max(Allocator.SurePass, model.PassChance(rival.Effort));
        Allocation allocation = Allocator.Optimise(standing.Exam, quick, past, retainedHours, Pieces, enoughAt, cancellation);
        int[] pieces = Assign(order, BlockPlacer.Interleave(order, allocation.Counts(order.Length)), reviewAll: false);

        PlanSearch search = NewSearch(quick);
        int[] fromRival = Search(search, TopicsOf(rival), enoughAt, cancellation);
        double rivalPass = model.PassChance(search.Efforts);
        int[] best = Search(search, pieces, enoughAt, cancellation);
        if (model.PassChance(search.Efforts) < rivalPass - Allocator.SamePass)
        {
            best = fromRival;
        }

        search.Start(best, Reviewable);
        Refine(search, quick, cancellation);
        search.Group();
        return Draft([.. search.Topics], order);
    }

    /// <summary>Drafts that go on from an earlier plan: the first keeps its blocks and uses no other slot, the next keeps them and uses other slots too, and each further one moves a block for a
    /// smaller gain in pass chance; one like the one before is left out.</summary>
    /// <param name="home">Topic of the block that the earlier plan has in each slot, or <see cref="BlockPlacer.Unused"/>.</param>
    /// <param name="cancellation">Stops the work.</param>
    public IEnumerable<PlanDraft> GoingOn(int[] home, CancellationToken cancellation)
    {
        QuickScoreModel quick = Quick();
        ImmutableArray<int> order = Allocator.Rank(standing.Exam, quick, past, retainedHours);
        yield return Draft(home, order);
        if (slots.IsEmpty)
        {
            yield break;
        }

        PlanSearch search = NewSearch(quick);
        int[] last = home;
        foreach (double cost in MoveCosts)
        {
            search.Hold(home, cost);
            int[] next = Search(search, last, Allocator.SurePass, cancellation);
            if (!next.AsSpan().SequenceEqual(last))
            {
                yield return Draft(next, order);
            }

            last = next;
        }
    }

    /// <summary>A draft made to obey wishes; null where no way is found.</summary>
    /// <param name="start">The draft to go on from.</param>
    /// <param name="wishes">The wishes; pinned blocks are slots of this drafter.</param>
    /// <param name="search">Whether to search on for a higher pass chance.</param>
    /// <param name="cancellation">Stops the work.</param>
    public PlanDraft? Obeying(PlanDraft start, CoachWishes wishes, bool search, CancellationToken cancellation)
    {
        WishTable rules = new(table, wishes, [.. standing.Exam.Topics.Select(t => t.Name)], [.. Reviewable.Select((known, t) => known || !standing.Study.Of(t).IsEmpty)]);
        int[] topics = TopicsOf(start);
        if (!rules.Impose(topics, start.Order, fill: true))
        {
            return null;
        }

        if (search && !slots.IsEmpty)
        {
            PlanSearch improve = NewSearch(Quick());
            improve.Obey(rules);
            topics = Search(improve, topics, Allocator.SurePass, cancellation);
        }

        return Draft(topics, start.Order);
    }

    /// <summary>The blocks of a sequence of topics.</summary>
    public PlanDraft Draft(ImmutableArray<int> order, ImmutableArray<int> sequence, bool reviewAll, bool enough)
        => Draft(Assign(order, sequence, reviewAll), order) with { Enough = enough };

    // Whether a person knows a topic well enough to review it without having studied it.
    private bool[] Reviewable => [.. standing.Topics.Select(t => t.Level.Band != Band.Weak)];

    private QuickScoreModel Quick()
    {
        QuickScoreModel quick = new(standing.Exam, model.Learning);
        quick.Load(standing.Posterior, model.EffortNow);
        return quick;
    }

    private PlanSearch NewSearch(QuickScoreModel quick)
    {
        StudyEffort law = new(table, model.Learning, [.. model.BreadthFactors]);
        for (int t = 0; t < past.Length; t++)
        {
            law.Load(t, standing.Topics[t].Level.Band, standing.Study.Of(t));
        }

        return new PlanSearch(table, law, quick, Allocator.TieOrder(standing.Exam), SearchDetail.Thorough);
    }

    private int[] Search(PlanSearch search, int[] start, double enoughAt, CancellationToken cancellation)
    {
        search.Start(start, Reviewable);
        search.Improve(cancellation);
        if (search.Fill(enoughAt - Allocator.SamePass))
        {
            search.Improve(cancellation);
        }

        return [.. search.Topics];
    }

    // The quick model errs a little. Where a block more adds more or less than it says, the search goes on with that corrected, as long as the exact model agrees that the plan gets better
    // (first-order model management: Alexandrov & Lewis, Optimization and Engineering 2, 2001).
    private void Refine(PlanSearch search, QuickScoreModel quick, CancellationToken cancellation)
    {
        double[] piece = [.. model.BreadthFactors.Select(b => b * retainedHours)];
        double[] correction = new double[piece.Length];
        EffortChange[] gains = new EffortChange[piece.Length];
        EffortChange[] losses = new EffortChange[piece.Length];
        for (int round = 0; round < ExactRounds; round++)
        {
            double[] efforts = [.. search.Efforts];
            int[] topics = [.. search.Topics];
            double pass = model.Marginal(efforts, piece, gains, losses);
            for (int t = 0; t < piece.Length; t++)
            {
                double hours = model.Learning.Effective(efforts[t] + piece[t]) - model.Learning.Effective(efforts[t]);
                QuickScore after = quick.Try(t, efforts[t] + piece[t]);
                correction[t] = (gains[t].Pass - (after.Pass - quick.Score.Pass)) / hours;
            }

            search.Correct(correction);
            if (!search.Improve(cancellation))
            {
                return;
            }

            if (model.PassChance(search.Efforts) <= pass)
            {
                search.Start(topics, Reviewable);
                return;
            }
        }
    }

    private int[] TopicsOf(PlanDraft draft)
    {
        int[] topics = new int[slots.Length];
        Array.Fill(topics, BlockPlacer.Unused);
        foreach (PlacedPiece piece in draft.Pieces)
        {
            topics[slots.IndexOf(piece.Slot)] = piece.Topic;
        }

        return topics;
    }

    private int[] Assign(ImmutableArray<int> order, ImmutableArray<int> sequence, bool reviewAll)
    {
        int[] topics = BlockPlacer.Place(table, sequence);
        BlockPlacer.AddReviews(table, order, topics, reviewAll);
        return topics;
    }

    private PlanDraft Draft(int[] topics, ImmutableArray<int> order)
    {
        List<PlacedPiece> pieces = [];
        for (int t = 0; t < order.Length; t++)
        {
            int[] own = [.. Enumerable.Range(0, topics.Length).Where(i => topics[i] == t)];
            BlockPurpose[] purposes = BlockPurposes.InOrder(own.Count(i => table.IsStudy[i]), standing.Topics[t].Level.Band, PastBlocks.Of(standing.Study.Of(t)));
            int next = 0;
            pieces.AddRange(own.Select(i => new PlacedPiece(slots[i], t, slots[i].LightOnly ? BlockPurpose.Review : purposes[next++])));
        }

        ImmutableArray<PlacedPiece> placed = [.. pieces.OrderBy(p => p.Slot.Start)];
        return new PlanDraft(placed, order, PlanDraft.EffortOf(placed, standing, examDay, model), table.Study.Any(i => topics[i] == BlockPlacer.Unused));
    }
}
