using System.Collections.Immutable;

using Homestretch.Core.Planning.Optimising;

namespace Homestretch.Core.Planning.Calendar;

/// <summary>Puts pieces of study into slots under the rules of a humane schedule: at most two topics in one window, blocks of a topic side by
/// side within it, and every topic with more than one block on at least two days where the calendar allows.</summary>
internal static class BlockPlacer
{
    /// <summary>Marks a slot that stays free.</summary>
    public const int Unused = -1;

    /// <summary>Most topics in one window.</summary>
    public const int TopicsPerWindow = 2;

    // In an interleaved plan a topic starts when this share of the time before it in the order has passed, and goes on to the end.
    private const double StaggeredStart = 0.6;

    /// <summary>Spreads each topic's pieces over the whole time, the first topic of the order first.</summary>
    public static ImmutableArray<int> Interleave(ImmutableArray<int> order, int[] counts)
    {
        double all = Math.Max(1, counts.Sum());
        double before = 0;
        List<(double At, int Rank)> pieces = [];
        for (int rank = 0; rank < order.Length; rank++)
        {
            int topic = order[rank];
            double start = StaggeredStart * before / all;
            for (int i = 0; i < counts[topic]; i++)
            {
                pieces.Add((start + ((1 - start) * i / counts[topic]), rank));
            }

            before += counts[topic];
        }

        pieces.Sort();
        return [.. pieces.Select(p => order[p.Rank])];
    }

    /// <summary>Topic of each slot, or <see cref="Unused"/>; slots for light review stay free.</summary>
    /// <param name="slots">The calendar.</param>
    /// <param name="sequence">Topics in the wished order; pieces that fit nowhere under the rules are left out.</param>
    public static int[] Place(SlotTable slots, ImmutableArray<int> sequence)
    {
        int[] topics = new int[slots.Count];
        Array.Fill(topics, Unused);
        List<int> pending = [.. sequence];
        FillWindows(slots, pending, topics);
        FillGaps(slots, pending, topics);
        SpreadOverDays(slots, topics);
        for (int w = 0; w + 1 < slots.WindowFirst.Length; w++)
        {
            Group(topics.AsSpan()[slots.WindowFirst[w]..slots.WindowFirst[w + 1]]);
        }

        return topics;
    }

    /// <summary>Adds light review in the last days: first what has been met on one day only, then the rest of the order where wished, then the other topics met; round and round.</summary>
    /// <param name="slots">The calendar.</param>
    /// <param name="order">Topics in the order of study.</param>
    /// <param name="topics">Topic of each slot; receives the reviews.</param>
    /// <param name="reviewAll">Whether topics without study get a quick look too.</param>
    public static void AddReviews(SlotTable slots, ImmutableArray<int> order, int[] topics, bool reviewAll)
    {
        if (slots.Study.Length == slots.Count)
        {
            return;
        }

        int[] met = [.. order.Where(t => topics.AsSpan().Contains(t))];
        int[] single = [.. met.Where(t => IsOnOneDay(slots, topics, t))];
        int[] others = [.. met.Except(single)];
        Queue<int> wanted = new([.. single, .. reviewAll ? order.Except(met) : [], .. others]);
        for (int slot = 0; slot < slots.Count; slot++)
        {
            if (slots.IsStudy[slot])
            {
                continue;
            }

            // Once every topic has had its turn the round begins again.
            if (wanted.Count == 0)
            {
                wanted = new(met);
            }

            if (wanted.TryPeek(out int topic) && Fits(slots, topics, slot, topic))
            {
                topics[slot] = wanted.Dequeue();
            }
        }
    }

    private static void FillWindows(SlotTable slots, List<int> pending, int[] topics)
    {
        // Where there are more slots than pieces, the slots are used evenly.
        int chosen = Math.Min(slots.Study.Length, pending.Count);
        int window = -1;
        int first = -1;
        int second = -1;
        for (int i = 0; i < chosen && pending.Count > 0; i++)
        {
            int slot = slots.Study[(int)((long)i * slots.Study.Length / chosen)];
            if (slots.Window[slot] != window)
            {
                (window, first, second) = (slots.Window[slot], -1, -1);
            }

            int piece = 0;
            while (piece < pending.Count && second >= 0 && pending[piece] != first && pending[piece] != second)
            {
                piece++;
            }

            if (piece == pending.Count)
            {
                continue;
            }

            int topic = pending[piece];
            pending.RemoveAt(piece);
            topics[slot] = topic;
            if (first < 0)
            {
                first = topic;
            }
            else if (topic != first && second < 0)
            {
                second = topic;
            }
        }
    }

    private static void FillGaps(SlotTable slots, List<int> pending, int[] topics)
    {
        for (int i = 0; i < slots.Study.Length && pending.Count > 0; i++)
        {
            int slot = slots.Study[i];
            if (topics[slot] == Unused)
            {
                int piece = pending.FindIndex(t => Fits(slots, topics, slot, t));
                if (piece >= 0)
                {
                    topics[slot] = pending[piece];
                    pending.RemoveAt(piece);
                }
            }
        }
    }

    private static bool Fits(SlotTable slots, int[] topics, int at, int topic)
    {
        int other = Unused;
        int met = 1;
        for (int i = slots.WindowFirst[slots.Window[at]]; i < slots.WindowFirst[slots.Window[at] + 1]; i++)
        {
            if (i != at && topics[i] != Unused && topics[i] != topic && topics[i] != other)
            {
                other = topics[i];
                met++;
            }
        }

        return met <= TopicsPerWindow;
    }

    private static void SpreadOverDays(SlotTable slots, int[] topics)
    {
        for (int i = 0; i < slots.Study.Length; i++)
        {
            int topic = topics[slots.Study[i]];
            if (topic == Unused || Array.FindIndex(slots.Study, s => topics[s] == topic) < i || !IsOnOneDay(slots, topics, topic))
            {
                continue;
            }

            int last = Array.FindLastIndex(slots.Study, s => topics[s] == topic);
            if (last > i)
            {
                MoveOne(slots, topics, last);
            }
        }
    }

    // Swaps the last of a topic's blocks with the nearest block (or free slot) of another day, later days first.
    private static void MoveOne(SlotTable slots, int[] topics, int last)
    {
        for (int other = last + 1; other < slots.Study.Length; other++)
        {
            if (Swap(slots, topics, slots.Study[last], slots.Study[other]))
            {
                return;
            }
        }

        for (int other = last - 1; other >= 0; other--)
        {
            if (Swap(slots, topics, slots.Study[last], slots.Study[other]))
            {
                return;
            }
        }
    }

    private static bool Swap(SlotTable slots, int[] topics, int last, int other)
    {
        if (slots.Day[last] == slots.Day[other])
        {
            return false;
        }

        int partner = topics[other];
        bool partnerOnOneDay = partner == Unused || IsOnOneDay(slots, topics, partner);
        (topics[last], topics[other]) = (topics[other], topics[last]);
        bool legal = Fits(slots, topics, other, topics[other])
            && (partner == Unused || (Fits(slots, topics, last, partner) && (partnerOnOneDay || !IsOnOneDay(slots, topics, partner))));
        if (!legal)
        {
            (topics[last], topics[other]) = (topics[other], topics[last]);
        }

        return legal;
    }

    private static bool IsOnOneDay(SlotTable slots, int[] topics, int topic)
    {
        int first = -1;
        foreach (int slot in slots.Study)
        {
            if (topics[slot] == topic)
            {
                if (first >= 0 && slots.Day[slot] != slots.Day[first])
                {
                    return false;
                }

                first = first < 0 ? slot : first;
            }
        }

        return first >= 0;
    }

    /// <summary>Lets used slots of a window trade places so that each topic's lie together, in the order in which the topics first appear.</summary>
    /// <param name="window">Topics of a window's slots.</param>
    /// <param name="first">A topic to put first.</param>
    /// <param name="last">A topic to put last.</param>
    public static void Group(Span<int> window, int first = Unused, int last = Unused)
    {
        Span<int> rank = stackalloc int[window.Length];
        for (int i = 0; i < window.Length; i++)
        {
            rank[i] = window[i] == first ? -1 : window[i] == last ? window.Length : window.IndexOf(window[i]);
        }

        for (int i = 1; i < window.Length; i++)
        {
            int at = i;
            for (int j = i - 1; j >= 0 && window[at] != Unused; j--)
            {
                if (window[j] == Unused)
                {
                    continue;
                }

                if (rank[j] <= rank[at])
                {
                    break;
                }

                (window[j], window[at]) = (window[at], window[j]);
                (rank[j], rank[at]) = (rank[at], rank[j]);
                at = j;
            }
        }
    }
}
