using System.Numerics;

using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;

using NodaTime;

namespace Homestretch.Core.Words;

/// <summary>How much strength one, two, three ... further recalls of a word can leave for exam day, each on the days that are best for so many.</summary>
/// <remarks>Which days are best does not depend on how well the word sticks, so the answers only decide how many recalls are worth their price. For each number the days are found by
/// adding one to the best so far, then moving one day, or all from one day on, as long as that adds strength: by half the way to the next one at first, by a day at last.</remarks>
internal sealed class BestRecalls
{
    private const double Rises = 1e-12;

    // With more days than this, so many are looked at when one is added; moving finds the day itself.
    private const int EveryDay = 64;
    private const int Places = 40;

    private readonly StudyEffect recall;
    private readonly RecallTable table;
    private readonly int first;
    private readonly bool nothingNew;

    // What was met so far: days before the exam, gain, and logarithm of what is forgotten, by exponent one.
    private readonly int lastMet;
    private readonly double spacedDays;
    private readonly int met;
    private double[] gains = [];
    private double[] losses = [];

    // Days before the exam, earliest first.
    private int[] days = [];
    private int[] trial = [];
    private readonly List<double> strengths = [];

    /// <summary>Prepares the search.</summary>
    /// <param name="memory">What is known of the word; it has been met.</param>
    /// <param name="from">The first day that may be chosen; the last is the day before the exam, or the one before that for a word that was never recalled.</param>
    /// <param name="table">What a day counts, for this exam.</param>
    public BestRecalls(WordMemory memory, LocalDate from, RecallTable table)
    {
        this.table = table;
        recall = table.Learning.Effect(StudyKind.Retrieval);
        first = table.DaysBefore(from);
        nothingNew = memory.RecallDays == 0;
        ReadOnlySpan<StudyMoment> past = memory.Met;
        int exam = memory.DayNumber(table.ExamDay);
        met = past.Length;
        lastMet = exam - past[^1].Day;
        spacedDays = table.Learning.SpacedDays(past, exam);
        MakeRoom(0);
        for (int i = 0; i < met; i++)
        {
            StudyEffect effect = table.Learning.Effect(past[i].Kind);
            gains[i] = effect.Gain * past[i].Hours;
            losses[i] = effect.Forgetting * table.Loss(exam - past[i].Day);
        }

        strengths.Add(Strength([]));
    }

    /// <summary>The most strength on exam day with so many further recalls; null where there are not so many days.</summary>
    public double? Strength(int recalls)
    {
        while (strengths.Count <= recalls)
        {
            if (!AddOne())
            {
                return null;
            }
        }

        return strengths[recalls];
    }

    private bool AddOne()
    {
        int count = days.Length;
        int[] best = [];
        double most = double.NegativeInfinity;
        trial = new int[count + 1];
        MakeRoom(count + 1);
        int step = first <= EveryDay ? 1 : 1 + ((first - 1) / Places);
        for (int day = 1; day <= first; day += step)
        {
            if (Array.IndexOf(days, day) >= 0)
            {
                continue;
            }

            int place = 0;
            while (place < count && days[place] > day)
            {
                trial[place] = days[place++];
            }

            trial[place] = day;
            days.AsSpan(place).CopyTo(trial.AsSpan(place + 1));
            if (Allowed(trial) && Strength(trial) is var strength && strength > most)
            {
                most = strength;
                best = [.. trial];
            }
        }

        if (best.Length == 0)
        {
            return false;
        }

        days = best;
        strengths.Add(Settle(most));
        return true;
    }

    // Moves days as long as that adds strength.
    private double Settle(double most)
    {
        for (int step = Math.Max(1, first / (2 * days.Length)); step > 0;)
        {
            bool moved = false;
            for (int i = 0; i < days.Length; i++)
            {
                while (Move(i, 1, step, ref most) || Move(i, 1, -step, ref most) || (i < days.Length - 1 && (Move(i, days.Length - i, step, ref most) || Move(i, days.Length - i, -step, ref most))))
                {
                    moved = true;
                }
            }

            step = moved ? step : step / 2;
        }

        return most;
    }

    private bool Move(int place, int count, int by, ref double most)
    {
        int end = place + count;
        if (days[place] + by >= (place == 0 ? first + 1 : days[place - 1]) || days[end - 1] + by <= (end == days.Length ? 0 : days[end]))
        {
            return false;
        }

        days.CopyTo(trial, 0);
        for (int i = place; i < end; i++)
        {
            trial[i] += by;
        }

        if (!Allowed(trial) || Strength(trial) is var strength && strength <= most + Rises)
        {
            return false;
        }

        (days, trial) = (trial, days);
        most = strength;
        return true;
    }

    // Nothing new on the last evening.
    private bool Allowed(int[] chosen) => !nothingNew || chosen[0] > 1;

    private double Strength(ReadOnlySpan<int> chosen)
    {
        double spaced = spacedDays;
        int last = lastMet;
        foreach (int day in chosen)
        {
            spaced += table.Spaced(last - day);
            last = day;
        }

        for (int i = 0; i < chosen.Length; i++)
        {
            losses[met + i] = recall.Forgetting * table.Loss(chosen[i]);
        }

        Vector<double> exponent = new(table.Exponent(spaced));
        Vector<double> strength = Vector<double>.Zero;
        for (int i = 0; i < losses.Length; i += Vector<double>.Count)
        {
            strength += new Vector<double>(gains, i) * Vector.Exp(exponent * new Vector<double>(losses, i));
        }

        return Vector.Sum(strength);
    }

    // Whole vectors: places that nothing is in gain nothing.
    private void MakeRoom(int recalls)
    {
        int length = (met + recalls + Vector<double>.Count - 1) / Vector<double>.Count * Vector<double>.Count;
        Array.Resize(ref gains, length);
        Array.Resize(ref losses, length);
        gains.AsSpan(met, recalls).Fill(recall.Gain);
    }
}
