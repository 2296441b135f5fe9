using System.Collections.Immutable;

using NodaTime;

namespace Homestretch.Core.Words;

/// <summary>Chooses the words to recall today, so that as many as possible are expected to be known on exam day.</summary>
/// <remarks>A recall adds strength and brings an answer, which says whether the word needs more. For each word and each day on which it could come next, the value is the mean over that
/// answer of the chance to know the word on exam day with the days of recall that are best from then on (<see cref="WordDraft"/>), less a price for each recall:
/// <see cref="WordAssumptions.LeastGain"/>, or more where the days until the exam do not hold all recalls that would be worth that. Words and days are then matched, as many words to a day as fit.
/// Looking one answer ahead, it comes close to the best way to go on after every possible row of answers; it is made to be computed again after each of them.</remarks>
public static class WordPlanner
{
    private const double Rises = 1e-9;
    private const double SureFrom = 0.8;

    // Days to wait that are compared with today: each about half as long again as the one before, since nearby days make the difference.
    private static readonly int[] _waits = [1, 2, 3, 4, 6, 9, 13, 19, 28, 42, 63, 95, 142];

    /// <summary>Chooses words for today.</summary>
    /// <param name="words">The words; those noted after today do not count yet, nor do later answers.</param>
    /// <param name="today">Today.</param>
    /// <param name="examDay">The day of the exam, after today.</param>
    /// <param name="recallsPerDay">Recalls that fit into a day, zero or more; those done today count.</param>
    /// <param name="assumptions">What is taken for granted; null for the defaults.</param>
    /// <exception cref="ArgumentOutOfRangeException">The exam is not after today, or <paramref name="recallsPerDay"/> is negative.</exception>
    public static WordPlan Plan(ImmutableArray<Word> words, LocalDate today, LocalDate examDay, int recallsPerDay, WordAssumptions? assumptions = null)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(examDay, today);
        ArgumentOutOfRangeException.ThrowIfNegative(recallsPerDay);
        WordAssumptions taken = assumptions ?? WordAssumptions.Default;
        ImmutableArray<Word> noted = [.. words.Where(w => w.Noted <= today).Select(w => w.AsOf(today))];
        WordMemory[] memories = [.. noted.Select(w => new WordMemory(w, taken))];
        RecallTable table = new(taken.Learning, noted.Select(w => w.Noted).Append(today).Min(), examDay);

        int doneToday = memories.Count(m => m.LastRecall == today);
        int room = Math.Max(0, recallsPerDay - doneToday);
        double[] steps = [.. noted.SelectMany((w, i) => w.HasDefinition ? Steps(memories[i], today, table, taken.LeastGain) : [])];
        double price = Price(steps, room + ((long)recallsPerDay * (Period.DaysBetween(today, examDay) - 1)), taken.LeastGain);

        Prospect[] prospects = [.. noted.Select((w, i) => Look(w, memories[i], today, table, price, taken.LeastGain))];
        HashSet<int> chosen = Assign(prospects, room, recallsPerDay);

        // What will not fit later has to begin today, where waiting costs most.
        long must = Math.Min(room, steps.Length - ((long)recallsPerDay * (Period.DaysBetween(today, examDay) - 1)));
        foreach ((int i, _) in prospects.Index().Where(p => p.Item.Values is [double value, ..] && value > p.Item.Alone + Rises).OrderByDescending(p => p.Item.Values[0] - p.Item.Values[1..].Max()))
        {
            if (chosen.Count < must)
            {
                chosen.Add(i);
            }
        }

        return new(today, examDay, recallsPerDay, doneToday, [.. prospects.Select((p, i) => Outlook(p, chosen.Contains(i)))]);
    }

    // Every word gets a first day or none. The one that would lose most by its second choice chooses first; days fill up.
    private static HashSet<int> Assign(Prospect[] prospects, int roomToday, int recallsPerDay)
    {
        int[] room = [roomToday, .. _waits.Select(_ => recallsPerDay)];
        List<int> open = [.. Enumerable.Range(0, prospects.Length).Where(i => prospects[i].Values.Length > 0)];
        HashSet<int> chosen = [];
        while (open.Count > 0)
        {
            (int word, int day, double most) = (-1, -1, double.NegativeInfinity);
            foreach (int i in open)
            {
                (int best, double first, double second) = (-1, prospects[i].Alone + Rises, double.NegativeInfinity);
                for (int d = 0; d < room.Length; d++)
                {
                    double value = room[d] > 0 ? prospects[i].Values[d] : double.NegativeInfinity;
                    (best, first, second) = value > first ? (d, value, first) : (best, first, Math.Max(second, value));
                }

                if (first - second > most)
                {
                    (word, day, most) = (i, best, first - second);
                }
            }

            open.Remove(word);
            if (day >= 0)
            {
                room[day]--;
            }

            if (day == 0)
            {
                chosen.Add(word);
            }
        }

        return chosen;
    }

    private static IReadOnlyList<double> Steps(WordMemory memory, LocalDate today, RecallTable table, double price)
        => new WordDraft(memory, new BestRecalls(memory, FirstDay(memory, today), table), price).Steps;

    // What the last recall adds for which there is room when all are granted, the most useful first.
    private static double Price(double[] steps, long room, double least)
    {
        if (steps.Length <= room)
        {
            return least;
        }

        Array.Sort(steps, (one, other) => other.CompareTo(one));
        return Math.Max(least, steps[room]);
    }

    private static Prospect Look(Word word, WordMemory memory, LocalDate today, RecallTable table, double price, double leastGain)
    {
        LocalDate examDay = table.ExamDay;
        double alone = memory.Chance(examDay);
        Prospect bare = new(word, memory.Chance(today), alone, memory.Chance(examDay, today), alone, alone, [], WordState.LacksDefinition, memory.RecallDays);
        if (!word.HasDefinition)
        {
            return bare;
        }

        WordDraft waiting = new(memory, new BestRecalls(memory, today.PlusDays(1), table), price);
        Prospect prospect = bare with { Waiting = waiting.Chance };
        if (memory.LastRecall == today)
        {
            return prospect with { Otherwise = WordState.DoneToday };
        }

        if (memory.RecallDays == 0 && examDay == today.PlusDays(1))
        {
            return prospect with { Otherwise = WordState.TooLate };
        }

        (double value, double withToday) = FirstRecall(memory, today, table, price);
        double Wait(int days) => today.PlusDays(days) is var day && day < examDay && (memory.RecallDays > 0 || day < examDay.PlusDays(-1))
            ? FirstRecall(memory, day, table, price).Value
            : double.NegativeInfinity;
        double[] values = [value, .. _waits.Select(Wait)];
        WordState otherwise = value > values[1..].Append(alone).Max() + Rises ? WordState.NoRoom
            : values.Max() > alone + Rises ? WordState.Later
            : Steps(memory, today, table, leastGain).Count > 0 ? WordState.NoRoom
            : alone >= SureFrom ? WordState.Sure
            : WordState.HardlySticks;
        return prospect with { WithToday = withToday, Values = values, Otherwise = otherwise };
    }

    private static WordOutlook Outlook(Prospect prospect, bool chosen) => new(
        prospect.Word,
        chosen ? WordState.Today : prospect.Otherwise,
        prospect.Now,
        prospect.Alone,
        prospect.AfterOne,
        chosen ? prospect.WithToday : prospect.Waiting,
        prospect.Values.Length > 0 ? Math.Max(0, prospect.Values[0] - prospect.Alone) : 0,
        prospect.RecallDays);

    // What is expected if the next recall is on a day: the mean over its answer, each gone on from as is best then.
    private static (double Value, double Chance) FirstRecall(WordMemory memory, LocalDate day, RecallTable table, double price)
    {
        double knows = memory.Chance(day);
        (WordMemory afterKnowing, WordMemory afterMissing) = memory.After(day);
        BestRecalls best = new(afterKnowing, day.PlusDays(1), table);
        WordDraft knew = new(afterKnowing, best, price);
        WordDraft missed = new(afterMissing, best, price);
        return ((knows * knew.Value) + ((1 - knows) * missed.Value) - price, (knows * knew.Chance) + ((1 - knows) * missed.Chance));
    }

    private static LocalDate FirstDay(WordMemory memory, LocalDate today) => memory.LastRecall == today ? today.PlusDays(1) : today;

    // Values[d] is what is expected with the next recall today (0) or after waiting, the price of recalls taken off; empty where there can be none.
    private sealed record Prospect(
        Word Word, double Now, double Alone, double AfterOne, double WithToday, double Waiting, double[] Values, WordState Otherwise, int RecallDays);
}
