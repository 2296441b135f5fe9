using System.Collections.Immutable;

namespace Homestretch.Core.Planning.Calendar;

/// <summary>Puts pieces of study into slots under the rules of a humane schedule: at most two topics in one window, blocks of a topic side by
/// side within it, and every topic with more than one block on at least two days where the calendar allows.</summary>
internal static class BlockPlacer
{
    /// <summary>Marks a slot that stays free.</summary>
    public const int Unused = -1;

    private const int TopicsPerWindow = 2;

    // In an interleaved plan a topic starts when this share of the time before it in the order has passed, and goes on to the end.
    private const double StaggeredStart = 0.6;

    /// <summary>Spreads each topic's pieces over the whole time, the first topic of the order first.</summary>
    public static ImmutableArray<int> Interleave(ImmutableArray<int> order, int[] counts)
    {
        double all = Math.Max(1, counts.Sum());
        double before = 0;
        List<(double At, int Rank, int Topic)> pieces = [];
        for (int rank = 0; rank < order.Length; rank++)
        {
            int topic = order[rank];
            double start = StaggeredStart * before / all;
            for (int i = 0; i < counts[topic]; i++)
            {
                pieces.Add((start + ((1 - start) * i / counts[topic]), rank, topic));
            }

            before += counts[topic];
        }

        return [.. pieces.OrderBy(p => p.At).ThenBy(p => p.Rank).Select(p => p.Topic)];
    }

    /// <summary>Topic of each slot, or <see cref="Unused"/>.</summary>
    /// <param name="slots">In time order.</param>
    /// <param name="sequence">Topics in the wished order; pieces that fit nowhere under the rules are left out.</param>
    public static int[] Place(IReadOnlyList<Slot> slots, ImmutableArray<int> sequence)
    {
        int[] topics = new int[slots.Count];
        Array.Fill(topics, Unused);
        int[] chosen = Thin(slots.Count, Math.Min(slots.Count, sequence.Length));
        List<int> pending = [.. sequence];
        foreach (IGrouping<int, int> window in chosen.GroupBy(i => slots[i].Window))
        {
            FillWindow([.. window], pending, topics);
        }

        FillGaps(slots, pending, topics);
        SpreadOverDays(slots, topics);
        GroupWithinWindows(slots, topics);
        return topics;
    }

    private static int[] Thin(int slots, int wanted) => [.. Enumerable.Range(0, wanted).Select(i => (int)((long)i * slots / wanted))];

    private static void FillWindow(int[] window, List<int> pending, int[] topics)
    {
        List<int> allowed = [];
        int filled = 0;
        for (int i = 0; i < pending.Count && filled < window.Length;)
        {
            if (!allowed.Contains(pending[i]))
            {
                if (allowed.Count == TopicsPerWindow)
                {
                    i++;
                    continue;
                }

                allowed.Add(pending[i]);
            }

            topics[window[filled++]] = pending[i];
            pending.RemoveAt(i);
        }
    }

    private static void FillGaps(IReadOnlyList<Slot> slots, List<int> pending, int[] topics)
    {
        for (int i = 0; i < topics.Length && pending.Count > 0; i++)
        {
            if (topics[i] == Unused)
            {
                int piece = pending.FindIndex(t => Fits(slots, topics, i, t));
                if (piece >= 0)
                {
                    topics[i] = pending[piece];
                    pending.RemoveAt(piece);
                }
            }
        }
    }

    private static bool Fits(IReadOnlyList<Slot> slots, int[] topics, int at, int topic)
    {
        HashSet<int> met = [topic];
        for (int i = 0; i < topics.Length; i++)
        {
            if (i != at && slots[i].Window == slots[at].Window && topics[i] != Unused)
            {
                met.Add(topics[i]);
            }
        }

        return met.Count <= TopicsPerWindow;
    }

    private static void SpreadOverDays(IReadOnlyList<Slot> slots, int[] topics)
    {
        foreach (int topic in topics.Where(t => t != Unused).Distinct().ToArray())
        {
            int[] own = [.. Enumerable.Range(0, topics.Length).Where(i => topics[i] == topic)];
            if (own.Length >= 2 && Days(slots, topics, topic) == 1)
            {
                MoveOne(slots, topics, own);
            }
        }
    }

    // Swaps the last of a topic's blocks with the nearest block (or free slot) of another day, later days first.
    private static void MoveOne(IReadOnlyList<Slot> slots, int[] topics, int[] own)
    {
        int last = own[^1];
        IEnumerable<int> others = Enumerable.Range(0, topics.Length)
            .Where(i => slots[i].Date != slots[last].Date)
            .OrderBy(i => i < last)
            .ThenBy(i => Math.Abs(i - last));
        foreach (int other in others)
        {
            int partner = topics[other];
            int daysBefore = partner == Unused ? 0 : Days(slots, topics, partner);
            (topics[last], topics[other]) = (topics[other], topics[last]);
            bool legal = Fits(slots, topics, other, topics[other])
                && (partner == Unused || (Fits(slots, topics, last, partner) && Days(slots, topics, partner) >= Math.Min(2, daysBefore)));
            if (legal)
            {
                return;
            }

            (topics[last], topics[other]) = (topics[other], topics[last]);
        }
    }

    private static int Days(IReadOnlyList<Slot> slots, int[] topics, int topic)
        => Enumerable.Range(0, topics.Length).Where(i => topics[i] == topic).Select(i => slots[i].Date).Distinct().Count();

    private static void GroupWithinWindows(IReadOnlyList<Slot> slots, int[] topics)
    {
        foreach (IGrouping<int, int> window in Enumerable.Range(0, topics.Length).Where(i => topics[i] != Unused).GroupBy(i => slots[i].Window))
        {
            int[] places = [.. window];
            int[] grouped = [.. places.Select(i => topics[i]).GroupBy(t => t).SelectMany(g => g)];
            for (int i = 0; i < places.Length; i++)
            {
                topics[places[i]] = grouped[i];
            }
        }
    }
}
