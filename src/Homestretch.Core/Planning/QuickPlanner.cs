using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Optimising;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Planning;

/// <summary>Plans for thousands of people who sit the same exam: the policies of a single person's plan, but with a brief search, on the quick model alone, and without reasons.</summary>
/// <remarks>The optimised plans are about a tenth of a point of pass chance below the thorough ones on average. Not safe for use by several threads at once: one per thread.</remarks>
internal sealed class QuickPlanner
{
    // Study time is first granted in about this many lots.
    private const int Lots = 8;

    private const double KnotSpacing = 0.4;

    private static readonly QuadratureDetail _detail = new(1.5, 0.03, 2, 2, 0);

    private readonly Exam exam;
    private readonly QuickScoreModel model;
    private readonly int[] tieOrder;
    private readonly double[] breadth;
    private readonly double[] past;
    private readonly bool[] reviewable;
    private CandidateStanding standing = null!;
    private SlotTable slots = null!;
    private StudyEffort law = null!;

    /// <param name="exam">The exam.</param>
    /// <param name="learning">Assumptions on learning; the documented defaults when null.</param>
    public QuickPlanner(Exam exam, LearningAssumptions? learning = null)
    {
        this.exam = exam;
        model = new QuickScoreModel(exam, learning, _detail, KnotSpacing);
        tieOrder = Allocator.TieOrder(exam);
        breadth = [.. model.BreadthFactors];
        past = new double[breadth.Length];
        reviewable = new bool[breadth.Length];
    }

    /// <summary>Slots that take blocks of study.</summary>
    public int Pieces => slots.Study.Length;

    /// <summary>Mean hours in one of them.</summary>
    public double PieceHours => slots.Count == 0 ? 0 : slots.MeanHours(model.Learning);

    /// <summary>Pass chance today, without further study.</summary>
    /// <param name="person">Where the person stands; only bands, study and posterior are looked at, and the latter is taken to be of the abilities without that study.</param>
    public double PassChanceNow(CandidateStanding person)
    {
        model.Load(person.Posterior);
        for (int t = 0; t < past.Length; t++)
        {
            past[t] = person.Study.IsEmpty ? 0 : person.Study.Effort(t, person.AsOf);
        }

        return PassAfter(past);
    }

    /// <summary>Takes up a person and a calendar.</summary>
    /// <param name="person">As for <see cref="PassChanceNow"/>.</param>
    /// <param name="calendar">The calendar from today on.</param>
    public void Load(CandidateStanding person, SlotTable calendar)
    {
        model.Load(person.Posterior);
        standing = person;
        slots = calendar;
        law = new StudyEffort(slots, model.Learning, breadth);
        for (int t = 0; t < breadth.Length; t++)
        {
            Band band = person.Topics[t].Level.Band;
            law.Load(t, band, person.Study.Of(t));
            reviewable[t] = band != Band.Weak;
            past[t] = law.Of(t, []);
        }
    }

    /// <summary>Topic of each slot, or <see cref="BlockPlacer.Unused"/>, in the optimised plan.</summary>
    public int[] Optimised()
    {
        if (slots.Count == 0)
        {
            return [];
        }

        PlanSearch search = new(slots, law, model, tieOrder, SearchDetail.Brief);
        search.Start(FirstDraft(), reviewable);
        search.Fill(Allocator.SurePass);
        search.Improve();
        search.Group();
        return [.. search.Topics];
    }

    /// <summary>Topic of each slot, or <see cref="BlockPlacer.Unused"/>, in the practice order.</summary>
    public int[] PracticeOrder()
        => slots.Count == 0
            ? []
            : Assign(Planning.PracticeOrder.Rank(standing), Planning.PracticeOrder.Allocate(standing, model.Learning, effort => PassAfter(effort), past, PieceHours, Pieces).Sequence, reviewAll: true);

    /// <summary>Topic of each slot, or <see cref="BlockPlacer.Unused"/>, where topics come in a given sequence.</summary>
    /// <param name="order">Topics in the order of study, for the reviews of the last days.</param>
    /// <param name="sequence">Topics of the pieces.</param>
    /// <param name="reviewAll">Whether topics without study get a quick look in the last days too.</param>
    public int[] Assign(ImmutableArray<int> order, ImmutableArray<int> sequence, bool reviewAll)
    {
        int[] topics = BlockPlacer.Place(slots, sequence);
        BlockPlacer.AddReviews(slots, order, topics, reviewAll);
        return topics;
    }

    /// <summary>Pass chance on exam day after the blocks of a plan.</summary>
    public double PassChance(ReadOnlySpan<int> topics)
    {
        Span<double> effort = stackalloc double[breadth.Length];
        Span<int> own = stackalloc int[topics.Length];
        for (int t = 0; t < breadth.Length; t++)
        {
            int count = 0;
            for (int i = 0; i < topics.Length; i++)
            {
                if (topics[i] == t)
                {
                    own[count++] = i;
                }
            }

            effort[t] = count == 0 ? past[t] : law.Of(t, own[..count]);
        }

        return PassAfter(effort);
    }

    /// <summary>Fills in how each block of a plan is studied.</summary>
    /// <param name="topics">Topic of each slot, or <see cref="BlockPlacer.Unused"/>.</param>
    /// <param name="kinds">Receives the kind of study in each slot that is used.</param>
    public void FillKinds(ReadOnlySpan<int> topics, Span<StudyKind> kinds)
    {
        Span<int> blocks = stackalloc int[breadth.Length];
        blocks.Clear();
        foreach (int slot in slots.Study)
        {
            if (topics[slot] >= 0)
            {
                blocks[topics[slot]]++;
            }
        }

        for (int t = 0; t < breadth.Length; t++)
        {
            blocks[t] = BlockPurposes.Teaching(blocks[t], standing.Topics[t].Level.Band, PastBlocks.Of(standing.Study.Of(t)));
        }

        for (int i = 0; i < topics.Length; i++)
        {
            kinds[i] = slots.Slots[i].LightOnly || topics[i] < 0 ? StudyKind.Review
                : blocks[topics[i]]-- > 0 ? StudyKind.Teaching
                : StudyKind.PracticeItems;
        }
    }

    private double PassAfter(ReadOnlySpan<double> effort)
    {
        model.Set(effort);
        return model.Score.Pass;
    }

    private int[] FirstDraft()
    {
        double hours = slots.RetainedHours(model.Learning);
        ImmutableArray<int> order = Allocator.Rank(exam, model, past, hours);
        int lot = Math.Max(1, Pieces / Lots);
        int[] counts = Allocator.Optimise(exam, model, past, hours * lot, (Pieces + lot - 1) / lot).Counts(breadth.Length);
        for (int t = 0; t < counts.Length; t++)
        {
            counts[t] *= lot;
        }

        ImmutableArray<int> sequence = BlockPlacer.Interleave(order, counts);
        return Assign(order, sequence.Length > Pieces ? sequence[..Pieces] : sequence, reviewAll: false);
    }
}
