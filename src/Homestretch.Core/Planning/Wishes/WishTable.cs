using System.Collections.Immutable;

using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Optimising;

namespace Homestretch.Core.Planning.Wishes;

/// <summary>Wishes as what each slot and topic must keep, and the way to make an assignment keep it.</summary>
internal sealed class WishTable
{
    private const int SequenceBlocks = 2;

    private readonly SlotTable slots;
    private readonly bool[] avoided;
    private readonly int[] leastMinutes;
    private readonly int[] leastBlocks;
    private readonly int[] pins;
    private readonly bool[] reviewable;

    /// <param name="slots">The slots, pinned blocks among them.</param>
    /// <param name="wishes">The wishes.</param>
    /// <param name="topics">Names of all topics.</param>
    /// <param name="reviewable">Topics that may be reviewed in the last days without a block of study before.</param>
    public WishTable(SlotTable slots, CoachWishes wishes, ImmutableArray<string> topics, bool[] reviewable)
    {
        this.slots = slots;
        this.reviewable = reviewable;
        avoided = [.. topics.Select(t => wishes.Avoid.Contains(t))];
        leastMinutes = [.. topics.Select(t => wishes.AtLeast.Where(m => m.Topic == t).Select(m => m.Minutes).DefaultIfEmpty().Max())];
        leastBlocks = [.. topics.Select(t => wishes.Include.Contains(t) ? SequenceBlocks : 0)];
        pins = [.. slots.Slots.Select(s => wishes.Pins.Any(p => p.Start == s.Start) ? topics.IndexOf(wishes.Pins.First(p => p.Start == s.Start).Topic) : BlockPlacer.Unused)];
        for (int i = 0; i < pins.Length; i++)
        {
            // Nothing new in the last days: what is pinned there must have been met before.
            if (pins[i] >= 0 && !slots.IsStudy[i] && !reviewable[pins[i]])
            {
                leastBlocks[pins[i]] = Math.Max(1, leastBlocks[pins[i]]);
            }
        }
    }

    /// <summary>Whether a slot may be given to a topic, or to none.</summary>
    public bool Allows(int slot, int topic) => pins[slot] >= 0 ? topic == pins[slot] : topic < 0 || !avoided[topic];

    /// <summary>Whether these slots are enough for a topic.</summary>
    public bool IsMet(int topic, ReadOnlySpan<int> own)
    {
        int minutes = 0;
        int blocks = 0;
        foreach (int slot in own)
        {
            minutes += slots.Slots[slot].Minutes;
            blocks += slots.IsStudy[slot] ? 1 : 0;
        }

        return minutes >= leastMinutes[topic] && blocks >= leastBlocks[topic];
    }

    /// <summary>Makes an assignment obey every wish, changing it no more than needed; if that does not go, from nothing but the pinned blocks.</summary>
    /// <param name="assigned">Topic of each slot; changed in place.</param>
    /// <param name="order">Topics in the order in which slots that fall free are given away.</param>
    /// <param name="fill">Whether slots that fall free are given away.</param>
    /// <returns>Whether it obeys.</returns>
    public bool Impose(int[] assigned, ImmutableArray<int> order, bool fill)
    {
        bool[] used = [.. assigned.Select(t => t >= 0)];
        for (int i = 0; i < assigned.Length; i++)
        {
            assigned[i] = pins[i] >= 0 ? pins[i] : assigned[i] >= 0 && avoided[assigned[i]] ? BlockPlacer.Unused : assigned[i];
        }

        for (int w = 0; w + 1 < slots.WindowFirst.Length; w++)
        {
            if (!KeepsWindow(assigned, w))
            {
                for (int i = slots.WindowFirst[w]; i < slots.WindowFirst[w + 1]; i++)
                {
                    assigned[i] = pins[i];
                }
            }
        }

        DropUnmetReviews(assigned);
        if (!Meet(assigned))
        {
            pins.CopyTo(assigned, 0);
            if (!Meet(assigned))
            {
                return false;
            }
        }

        int[] studied = [.. order.Where(t => slots.Study.Any(i => assigned[i] == t))];
        for (int i = 0, next = 0; fill && studied.Length > 0 && i < assigned.Length; i++)
        {
            for (int tries = 0; used[i] && assigned[i] < 0 && tries < studied.Length; tries++)
            {
                TryGive(assigned, i, studied[next++ % studied.Length]);
            }
        }

        return Obeys(assigned);
    }

    /// <summary>Whether an assignment obeys every wish and the rule of windows.</summary>
    public bool Obeys(int[] assigned)
        => Enumerable.Range(0, assigned.Length).All(i => Allows(i, assigned[i]))
            && Enumerable.Range(0, slots.WindowFirst.Length - 1).All(w => KeepsWindow(assigned, w))
            && Enumerable.Range(0, avoided.Length).All(t => IsMet(t, Own(assigned, t)) && !IsUnmet(assigned, t));

    private bool Meet(int[] assigned)
    {
        foreach (int topic in Enumerable.Range(0, avoided.Length).OrderByDescending(t => leastMinutes[t]).ThenByDescending(t => leastBlocks[t]))
        {
            while (!IsMet(topic, Own(assigned, topic)))
            {
                HashSet<int> days = [.. Own(assigned, topic).Select(i => slots.Day[i])];
                bool given = slots.Study
                    .Where(i => assigned[i] != topic && pins[i] < 0 && CanSpare(assigned, i))
                    .OrderBy(i => assigned[i] < 0 ? 0 : 1)
                    .ThenBy(i => days.Contains(slots.Day[i]) ? 1 : 0)
                    .ThenByDescending(i => assigned[i] < 0 ? 0 : Own(assigned, assigned[i]).Length)
                    .ThenBy(i => i)
                    .ToArray()
                    .Any(i => TryGive(assigned, i, topic));
                if (!given)
                {
                    return false;
                }
            }
        }

        return true;
    }

    private bool CanSpare(int[] assigned, int slot)
    {
        int topic = assigned[slot];
        if (topic < 0)
        {
            return true;
        }

        int[] rest = [.. Own(assigned, topic).Where(i => i != slot)];
        return IsMet(topic, rest) && (reviewable[topic] || rest.Length == 0 || rest.Any(i => slots.IsStudy[i]));
    }

    private bool TryGive(int[] assigned, int slot, int topic)
    {
        int before = assigned[slot];
        assigned[slot] = topic;
        if (KeepsWindow(assigned, slots.Window[slot]))
        {
            return true;
        }

        assigned[slot] = before;
        return false;
    }

    // Nothing new in the last days.
    private void DropUnmetReviews(int[] assigned)
    {
        for (int i = 0; i < assigned.Length; i++)
        {
            if (assigned[i] >= 0 && pins[i] < 0 && !slots.IsStudy[i] && IsUnmet(assigned, assigned[i]))
            {
                assigned[i] = BlockPlacer.Unused;
            }
        }
    }

    private bool IsUnmet(int[] assigned, int topic)
        => !reviewable[topic] && Own(assigned, topic) is { Length: > 0 } own && !own.Any(i => slots.IsStudy[i]);

    private static int[] Own(int[] assigned, int topic) => [.. Enumerable.Range(0, assigned.Length).Where(i => assigned[i] == topic)];

    // Two topics at most, each side by side.
    private bool KeepsWindow(int[] assigned, int window)
    {
        List<int> runs = [];
        for (int i = slots.WindowFirst[window]; i < slots.WindowFirst[window + 1]; i++)
        {
            if (assigned[i] >= 0 && (runs.Count == 0 || runs[^1] != assigned[i]))
            {
                runs.Add(assigned[i]);
            }
        }

        return runs.Count <= BlockPlacer.TopicsPerWindow && runs.Distinct().Count() == runs.Count;
    }
}
