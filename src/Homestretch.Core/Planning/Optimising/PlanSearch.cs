using Homestretch.Core.Forecasting;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Wishes;

namespace Homestretch.Core.Planning.Optimising;

/// <summary>Improves an assignment of topics to slots, move by move, until no move helps.</summary>
/// <remarks>
/// <para>A move gives a slot or a window's group of slots to another topic, or exchanges two of them. It is judged on what the blocks then leave on exam day (kinds of study, retention and spacing)
/// and on the pass chance that follows, and only made where every rule still holds that held before. Most moves are seen to be useless from the slopes of the pass chance alone.</para>
/// <para>Deterministic; ties go to the heavier topic, then by name, then to the earlier slot. Cost of a sweep: about (slots x topics + slots squared / 2) x 10 ns, and 2 us for a move that looks promising.</para>
/// </remarks>
internal sealed class PlanSearch
{
    // Values nearer than this are the same: rounding must not decide between two topics.
    private const double Tie = 1e-10;

    private readonly SlotTable slots;
    private readonly StudyEffort law;
    private readonly QuickScoreModel model;
    private readonly SearchDetail detail;
    private readonly int topics;
    private readonly int[] order;
    private readonly int[] topicOf;
    private readonly int[][] own;
    private readonly int[] counts;
    private readonly int[] studyCounts;
    private readonly double[] efforts;
    private readonly EffortChange[] slopes;
    private readonly double[] slope;
    private readonly double[] correction;
    private readonly double[] addEffort;
    private readonly int[] addVersion;
    private readonly double[] dropEffort;
    private readonly int[] dropVersion;
    private readonly int[] version;
    private readonly bool[] stale;
    private readonly int[] dropTopic;
    private readonly bool[] crowded;
    private readonly bool[] openToReview;
    private readonly (int Slot, int From, int To)[] pending;
    private int pendingCount;
    private int[]? home;
    private double moveCost;
    private WishTable? wishes;

    /// <param name="slots">The calendar.</param>
    /// <param name="law">What blocks leave on exam day.</param>
    /// <param name="model">Judges efforts; a person is loaded.</param>
    /// <param name="order">Topics in the order in which ties are decided.</param>
    /// <param name="detail">How far to go.</param>
    public PlanSearch(SlotTable slots, StudyEffort law, QuickScoreModel model, int[] order, SearchDetail detail)
    {
        this.detail = detail;
        this.slots = slots;
        this.law = law;
        this.model = model;
        this.order = order;
        topics = order.Length;
        topicOf = new int[slots.Count];
        own = new int[topics][];
        for (int t = 0; t < topics; t++)
        {
            own[t] = new int[slots.Count];
        }

        counts = new int[topics];
        studyCounts = new int[topics];
        efforts = new double[topics];
        slopes = new EffortChange[topics];
        slope = new double[topics];
        correction = new double[topics];
        addEffort = new double[topics * slots.Count];
        addVersion = new int[topics * slots.Count];
        dropEffort = new double[slots.Count];
        dropVersion = new int[slots.Count];
        version = new int[topics];
        stale = new bool[topics];
        dropTopic = new int[slots.Count];
        crowded = new bool[topics];
        openToReview = new bool[topics];
        pending = new (int, int, int)[2 * slots.Count];
    }

    /// <summary>Topic of each slot, or <see cref="BlockPlacer.Unused"/>.</summary>
    public ReadOnlySpan<int> Topics => topicOf;

    /// <summary>Effort per topic on exam day.</summary>
    public ReadOnlySpan<double> Efforts => efforts;

    /// <summary>Starts from an assignment.</summary>
    /// <param name="assigned">Topic of each slot, or <see cref="BlockPlacer.Unused"/>.</param>
    /// <param name="reviewable">Topics that the person knows well enough to review without having studied them.</param>
    public void Start(ReadOnlySpan<int> assigned, ReadOnlySpan<bool> reviewable)
    {
        assigned.CopyTo(topicOf);
        Array.Clear(counts);
        Array.Clear(studyCounts);
        for (int i = 0; i < topicOf.Length; i++)
        {
            if (topicOf[i] >= 0)
            {
                own[topicOf[i]][counts[topicOf[i]]++] = i;
                studyCounts[topicOf[i]] += slots.IsStudy[i] ? 1 : 0;
            }
        }

        for (int t = 0; t < topics; t++)
        {
            efforts[t] = law.Of(t, Own(t));
            Renew(t);
            crowded[t] = OnOneDay(t);
            openToReview[t] = reviewable[t] || law.IsMet(t) || (studyCounts[t] == 0 && counts[t] > 0);
        }

        Refresh();
    }

    /// <summary>Sets what the model misses: added to the slopes of the value per effective hour on each topic.</summary>
    public void Correct(ReadOnlySpan<double> perEffectiveHour)
    {
        perEffectiveHour.CopyTo(correction);
        Refresh();
    }

    /// <summary>From now on a slot that loses the block an earlier plan had in it costs something, and blocks of one topic must stand side by side within each window after every move.</summary>
    /// <param name="earlier">Topic of the block that the earlier plan has in each slot, or <see cref="BlockPlacer.Unused"/>.</param>
    /// <param name="cost">In pass chance.</param>
    public void Hold(int[] earlier, double cost)
    {
        home = earlier;
        moveCost = cost;
    }

    /// <summary>From now on every move obeys wishes; the assignment to start from must obey them too.</summary>
    public void Obey(WishTable table)
    {
        wishes = table;
        int[] none = new int[topicOf.Length];
        Array.Fill(none, BlockPlacer.Unused);
        Hold(none, 0);
    }

    /// <summary>Makes moves until none helps.</summary>
    /// <param name="cancellation">Stops the work between two sweeps.</param>
    /// <returns>Whether any move was made.</returns>
    public bool Improve(CancellationToken cancellation = default)
    {
        bool any = false;
        for (int round = 0; round < detail.Sweeps; round++)
        {
            cancellation.ThrowIfCancellationRequested();
            for (int t = 0; t < topics; t++)
            {
                if (stale[t])
                {
                    Renew(t);
                }
            }

            bool moved = GiveSlots();
            moved |= GiveGroups();
            moved |= ExchangeSlots();
            moved |= ExchangeGroups();
            any |= moved;
            if (!moved)
            {
                break;
            }
        }

        return any;
    }

    /// <summary>Uses free slots as long as a block adds something and a pass is not yet as good as certain.</summary>
    public bool Fill(double enoughAt)
    {
        bool filled = false;
        while (model.Score.Pass < enoughAt)
        {
            (double Gain, int Slot, int Topic) best = (0, -1, -1);
            for (int i = 0; i < topicOf.Length; i++)
            {
                for (int r = 0; topicOf[i] < 0 && r < topics; r++)
                {
                    int t = order[r];
                    double gain = slope[t] * Add(t, i);
                    if (gain > best.Gain + Tie && WindowTakes(i, t))
                    {
                        best = (gain, i, t);
                    }
                }
            }

            if (best.Slot < 0)
            {
                break;
            }

            QuickScore with = model.Try(best.Topic, efforts[best.Topic] + Add(best.Topic, best.Slot));
            if (Allocator.IsTooLittle(model.Score, with))
            {
                break;
            }

            Stage(best.Slot, best.Topic);
            if (!Attempt())
            {
                break;
            }

            filled = true;
        }

        return filled;
    }

    /// <summary>Puts blocks of one topic side by side within each window, and ends the search: only <see cref="Topics"/> count from then on.</summary>
    public void Group()
    {
        for (int w = 0; w + 1 < slots.WindowFirst.Length; w++)
        {
            int light = slots.WindowFirst[w];
            while (light < slots.WindowFirst[w + 1] && slots.IsStudy[light])
            {
                light++;
            }

            // A topic that study and review of one window share comes last in the one and first in the other.
            Span<int> study = topicOf.AsSpan()[slots.WindowFirst[w]..light];
            Span<int> review = topicOf.AsSpan()[light..slots.WindowFirst[w + 1]];
            int shared = BlockPlacer.Unused;
            foreach (int topic in review)
            {
                shared = topic >= 0 && study.Contains(topic) ? topic : shared;
            }

            BlockPlacer.Group(study, last: shared);
            BlockPlacer.Group(review, first: shared);
        }
    }

    private ReadOnlySpan<int> Own(int topic) => own[topic].AsSpan(0, counts[topic]);

    private bool GiveSlots()
    {
        bool moved = false;
        for (int i = 0; i < topicOf.Length; i++)
        {
            int a = topicOf[i];
            if (a < 0)
            {
                continue;
            }

            double lost = slope[a] * Drop(i);
            (double Gain, int Topic) best = (double.NegativeInfinity, -1);
            for (int r = 0; r < topics; r++)
            {
                int b = order[r];
                if (b != a && WindowTakes(i, b))
                {
                    double gain = slope[b] * Add(b, i);
                    if (gain > best.Gain + Tie)
                    {
                        best = (gain, b);
                    }
                }
            }

            if (best.Topic >= 0 && Promises(best.Gain + lost, best.Gain - lost))
            {
                if (slots.IsStudy[i] && studyCounts[a] == 1 && counts[a] > 1 && !openToReview[a])
                {
                    // With its only block of study a topic's reviews go as well.
                    StageAll(a, best.Topic);
                }
                else
                {
                    Stage(i, best.Topic);
                }

                moved |= Attempt();
            }
        }

        return moved;
    }

    private bool GiveGroups()
    {
        bool moved = false;
        for (int w = 0; w + 1 < slots.WindowFirst.Length; w++)
        {
            for (int i = slots.WindowFirst[w]; i < slots.WindowFirst[w + 1]; i++)
            {
                int a = topicOf[i];
                if (a < 0 || !IsFirstOfGroup(i) || GroupSize(i) < 2)
                {
                    continue;
                }

                for (int r = 0; r < topics && topicOf[i] == a; r++)
                {
                    int b = order[r];
                    if (b == a)
                    {
                        continue;
                    }

                    double gain = 0;
                    double shifted = 0;
                    for (int j = i; j < slots.WindowFirst[w + 1]; j++)
                    {
                        if (topicOf[j] == a)
                        {
                            double lost = slope[a] * Drop(j);
                            double won = slope[b] * Add(b, j);
                            gain += lost + won;
                            shifted += won - lost;
                        }
                    }

                    if (Promises(gain, shifted))
                    {
                        StageGroup(i, b);
                        moved |= Attempt();
                    }
                }
            }
        }

        return moved;
    }

    private bool ExchangeSlots()
    {
        bool moved = false;
        for (int i = 0; i < topicOf.Length; i++)
        {
            for (int j = i + 1; j < topicOf.Length; j++)
            {
                int a = topicOf[i];
                int b = topicOf[j];
                if (a == b || (slots.Day[i] == slots.Day[j] && slots.Hours[i] == slots.Hours[j] && slots.IsStudy[i] == slots.IsStudy[j]))
                {
                    continue;
                }

                (double gainA, double shiftedA) = a < 0 ? (0, 0) : Shift(a, i, j);
                (double gainB, double shiftedB) = b < 0 ? (0, 0) : Shift(b, j, i);
                if (Promises(gainA + gainB, shiftedA + shiftedB) && (b < 0 || WindowTakes(i, b)) && (a < 0 || WindowTakes(j, a)))
                {
                    Stage(i, b);
                    Stage(j, a);
                    moved |= Attempt();
                }
            }
        }

        return moved;
    }

    private bool ExchangeGroups()
    {
        bool moved = false;
        for (int i = 0; i < topicOf.Length; i++)
        {
            if (topicOf[i] < 0 || !IsFirstOfGroup(i))
            {
                continue;
            }

            for (int j = slots.WindowFirst[slots.Window[i] + 1]; j < topicOf.Length; j++)
            {
                int a = topicOf[i];
                int b = topicOf[j];
                if (b < 0 || a == b || !IsFirstOfGroup(j) || (GroupSize(i) == 1 && GroupSize(j) == 1))
                {
                    continue;
                }

                double gain = 0;
                double shifted = 0;
                AddGroup(i, b, ref gain, ref shifted);
                AddGroup(j, a, ref gain, ref shifted);
                if (Promises(gain, shifted))
                {
                    StageGroup(i, b);
                    StageGroup(j, a);
                    moved |= Attempt();
                }
            }
        }

        return moved;
    }

    private void AddGroup(int first, int to, ref double gain, ref double shifted)
    {
        int from = topicOf[first];
        for (int k = first; k < slots.WindowFirst[slots.Window[first] + 1]; k++)
        {
            if (topicOf[k] == from)
            {
                double lost = slope[from] * Drop(k);
                double won = slope[to] * Add(to, k);
                gain += lost + won;
                shifted += won - lost;
            }
        }
    }

    // About what moving a topic's block from one slot to another gains, and how much it shifts.
    private (double Gain, double Shifted) Shift(int topic, int from, int to)
    {
        double lost = slope[topic] * Drop(from);
        double won = slope[topic] * Add(topic, to);
        return (lost + won, won - lost);
    }

    private bool IsFirstOfGroup(int slot)
    {
        for (int i = slots.WindowFirst[slots.Window[slot]]; i < slot; i++)
        {
            if (topicOf[i] == topicOf[slot])
            {
                return false;
            }
        }

        return true;
    }

    private int GroupSize(int slot)
    {
        int size = 0;
        for (int i = slots.WindowFirst[slots.Window[slot]]; i < slots.WindowFirst[slots.Window[slot] + 1]; i++)
        {
            size += topicOf[i] == topicOf[slot] ? 1 : 0;
        }

        return size;
    }

    // Whether a move looks worth trying that gains this much, going by the slopes, and shifts this much in all.
    private bool Promises(double gain, double shifted) => gain > detail.LeastPromise - (detail.Patience * shifted);

    // Whether the slot's window would still keep its rules with this topic in this slot.
    private bool WindowTakes(int slot, int topic) => HoldsTwo(slot, topic) && (home is null || GroupsWith(slot, topic)) && wishes?.Allows(slot, topic) != false;

    private bool GroupsWith(int slot, int topic)
    {
        int before = topicOf[slot];
        topicOf[slot] = topic;
        bool grouped = IsGrouped(slots.Window[slot]);
        topicOf[slot] = before;
        return grouped;
    }

    // Whether the slot's window would still hold two topics at most with this topic in this slot.
    private bool HoldsTwo(int slot, int topic)
    {
        int other = -1;
        for (int i = slots.WindowFirst[slots.Window[slot]]; i < slots.WindowFirst[slots.Window[slot] + 1]; i++)
        {
            int t = topicOf[i];
            if (i == slot || t < 0 || t == other)
            {
                continue;
            }

            if (t == topic)
            {
                return true;
            }

            if (other >= 0)
            {
                return false;
            }

            other = t;
        }

        return true;
    }

    private double Add(int topic, int slot)
    {
        int at = (topic * topicOf.Length) + slot;
        if (addVersion[at] != version[topic])
        {
            addVersion[at] = version[topic];
            int[] list = own[topic];
            int count = counts[topic];
            int place = count;
            while (place > 0 && list[place - 1] > slot)
            {
                list[place] = list[place - 1];
                place--;
            }

            list[place] = slot;
            addEffort[at] = law.Of(topic, list.AsSpan(0, count + 1)) - efforts[topic];
            Array.Copy(list, place + 1, list, place, count - place);
        }

        return addEffort[at];
    }

    private double Drop(int slot)
    {
        int topic = topicOf[slot];
        if (dropVersion[slot] != version[topic] || dropTopic[slot] != topic)
        {
            dropVersion[slot] = version[topic];
            dropTopic[slot] = topic;
            int[] list = own[topic];
            int count = counts[topic];
            int place = Array.IndexOf(list, slot, 0, count);
            Array.Copy(list, place + 1, list, place, count - place - 1);
            dropEffort[slot] = law.Of(topic, list.AsSpan(0, count - 1)) - efforts[topic];
            Array.Copy(list, place, list, place + 1, count - place - 1);
            list[place] = slot;
        }

        return dropEffort[slot];
    }

    private void Stage(int slot, int to) => pending[pendingCount++] = (slot, topicOf[slot], to);

    private void StageAll(int from, int to)
    {
        foreach (int slot in Own(from))
        {
            Stage(slot, to);
        }
    }

    private void StageGroup(int first, int to)
    {
        for (int i = first; i < slots.WindowFirst[slots.Window[first] + 1]; i++)
        {
            if (topicOf[i] == topicOf[first])
            {
                Stage(i, to);
            }
        }
    }

    // Makes the staged changes where they keep the rules and gain something.
    private bool Attempt()
    {
        (int first, int second) = (-1, -1);
        for (int i = 0; i < pendingCount; i++)
        {
            (int slot, int from, int to) = pending[i];
            Change(slot, from, to);
            Touch(from, ref first, ref second);
            Touch(to, ref first, ref second);
        }

        bool better = IsLegal(first, second) && Gains(first, second);
        for (int i = pendingCount - 1; i >= 0 && !better; i--)
        {
            (int slot, int from, int to) = pending[i];
            Change(slot, to, from);
        }

        pendingCount = 0;
        return better;
    }

    // Whether the staged changes of one or two topics gain something; if so they are made.
    private bool Gains(int first, int second)
    {
        double effortFirst = law.Of(first, Own(first));
        double effortSecond = second < 0 ? 0 : law.Of(second, Own(second));
        double shiftFirst = slope[first] * (effortFirst - efforts[first]);
        double shiftSecond = second < 0 ? 0 : slope[second] * (effortSecond - efforts[second]);
        double cost = moveCost * MovedMore();
        if (!Promises(shiftFirst + shiftSecond - cost, Math.Abs(shiftFirst) + Math.Abs(shiftSecond)))
        {
            return false;
        }

        QuickScore score = second < 0 ? model.Try(first, effortFirst) : model.Try(first, effortFirst, second, effortSecond);
        double gain = Allocator.Value(score) - Allocator.Value(model.Score) + CorrectionOf(first, effortFirst) + (second < 0 ? 0 : CorrectionOf(second, effortSecond));
        if (gain <= detail.LeastGain + cost)
        {
            return false;
        }

        Commit(first, effortFirst);
        if (second >= 0)
        {
            Commit(second, effortSecond);
        }

        RefreshSlopes();
        return true;
    }

    // How many more slots than before the staged changes take from the blocks of the earlier plan.
    private int MovedMore()
    {
        int more = 0;
        for (int i = 0; home is not null && i < pendingCount; i++)
        {
            (int slot, int from, int to) = pending[i];
            more += home[slot] < 0 ? 0 : (to == home[slot] ? 0 : 1) - (from == home[slot] ? 0 : 1);
        }

        return more;
    }

    private static void Touch(int topic, ref int first, ref int second)
    {
        if (topic < 0 || topic == first || topic == second)
        {
            return;
        }

        if (first < 0)
        {
            first = topic;
        }
        else
        {
            second = topic;
        }
    }

    private void Commit(int topic, double effort)
    {
        efforts[topic] = effort;
        stale[topic] = true;
        if (!detail.LooksBack)
        {
            Renew(topic);
        }

        crowded[topic] &= OnOneDay(topic);
        model.Move(topic, effort);
    }

    private void Renew(int topic)
    {
        version[topic]++;
        stale[topic] = false;
    }

    private bool IsLegal(int first, int second)
    {
        for (int i = 0; i < pendingCount; i++)
        {
            if (TopicsIn(slots.Window[pending[i].Slot]) > BlockPlacer.TopicsPerWindow || (home is not null && !IsGrouped(slots.Window[pending[i].Slot])) || wishes?.Allows(pending[i].Slot, pending[i].To) == false)
            {
                return false;
            }
        }

        return KeepsRules(first) && (second < 0 || KeepsRules(second));
    }

    private bool KeepsRules(int topic)
        => wishes?.IsMet(topic, Own(topic)) != false && (crowded[topic] || !OnOneDay(topic)) && (studyCounts[topic] > 0 || counts[topic] == 0 || openToReview[topic]);

    // More than one block of study, all on one day though the calendar has others.
    private bool OnOneDay(int topic)
    {
        if (studyCounts[topic] < 2 || slots.StudyDays < 2)
        {
            return false;
        }

        int first = -1;
        foreach (int slot in Own(topic))
        {
            if (slots.IsStudy[slot])
            {
                if (first >= 0 && slots.Day[slot] != first)
                {
                    return false;
                }

                first = slots.Day[slot];
            }
        }

        return true;
    }

    // Whether each topic of the window has its blocks side by side; with two topics at most, whether the topic changes once at most.
    private bool IsGrouped(int window)
    {
        int last = -1;
        int runs = 0;
        for (int i = slots.WindowFirst[window]; i < slots.WindowFirst[window + 1]; i++)
        {
            if (topicOf[i] >= 0)
            {
                runs += topicOf[i] == last ? 0 : 1;
                last = topicOf[i];
            }
        }

        return runs <= TopicsIn(window);
    }

    private int TopicsIn(int window)
    {
        int a = -1;
        int b = -1;
        for (int i = slots.WindowFirst[window]; i < slots.WindowFirst[window + 1]; i++)
        {
            int t = topicOf[i];
            if (t < 0 || t == a || t == b)
            {
                continue;
            }

            if (a < 0)
            {
                a = t;
            }
            else if (b < 0)
            {
                b = t;
            }
            else
            {
                return BlockPlacer.TopicsPerWindow + 1;
            }
        }

        return a < 0 ? 0 : b < 0 ? 1 : 2;
    }

    private void Change(int slot, int from, int to)
    {
        if (from >= 0)
        {
            int[] list = own[from];
            int place = Array.IndexOf(list, slot, 0, counts[from]);
            counts[from]--;
            Array.Copy(list, place + 1, list, place, counts[from] - place);
            studyCounts[from] -= slots.IsStudy[slot] ? 1 : 0;
        }

        if (to >= 0)
        {
            int[] list = own[to];
            int place = counts[to]++;
            for (; place > 0 && list[place - 1] > slot; place--)
            {
                list[place] = list[place - 1];
            }

            list[place] = slot;
            studyCounts[to] += slots.IsStudy[slot] ? 1 : 0;
        }

        topicOf[slot] = to;
    }

    private void Refresh()
    {
        model.Set(efforts);
        RefreshSlopes();
    }

    private void RefreshSlopes()
    {
        model.Slopes(slopes);
        for (int t = 0; t < topics; t++)
        {
            slope[t] = Allocator.Value(slopes[t]) + (correction[t] * (1 - (model.Learning.Effective(efforts[t]) / model.Learning.SaturationHours)));
        }
    }

    // What the corrections make of a topic's change of effort.
    private double CorrectionOf(int topic, double effort)
        => correction[topic] == 0 ? 0 : correction[topic] * (model.Learning.Effective(effort) - model.Learning.Effective(efforts[topic]));
}
