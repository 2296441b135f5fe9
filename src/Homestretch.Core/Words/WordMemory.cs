using System.Runtime.InteropServices;

using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;

using NodaTime;

namespace Homestretch.Core.Words;

/// <summary>What one word's answers say of how well it sticks, and with that the chance of knowing it on any day.</summary>
/// <remarks>The days on which a word is met lay down strength, which is lost by the retention law of <see cref="LearningAssumptions.Retained"/>: the first reading as teaching, each
/// later day with a recall as retrieval, each with the weight of one. With strength S the word is known with chance 1 - exp(-k S). How well it sticks, k, is not known: log-normal before
/// the first answer, weighed by each answer with the chance it had.</remarks>
public sealed class WordMemory
{
    // A grid over the logarithm of k: a smooth integrand that dies out at both ends, where equal steps are as good as any rule.
    private const int Nodes = 25;
    private const double Reach = 4;
    private const int MostOnStack = 64;

    private readonly LearningAssumptions learning;
    private readonly LocalDate epoch;
    private readonly List<StudyMoment> met = [];
    private readonly double[] sticking;
    private readonly double[] weights = new double[Nodes];

    /// <summary>Takes in a word and its answers.</summary>
    /// <param name="word">The word.</param>
    /// <param name="assumptions">What is taken for granted.</param>
    public WordMemory(Word word, WordAssumptions assumptions)
    {
        ArgumentNullException.ThrowIfNull(word);
        ArgumentNullException.ThrowIfNull(assumptions);
        learning = assumptions.Learning;
        epoch = word.Noted;
        sticking = new double[Nodes];
        for (int i = 0; i < Nodes; i++)
        {
            double z = Reach * ((2.0 * i / (Nodes - 1)) - 1);
            sticking[i] = assumptions.Sticking * Math.Exp(assumptions.StickingLogSd * z);
            weights[i] = -z * z / 2;
        }

        if (word.HasDefinition)
        {
            met.Add(new(0, 1, StudyKind.Teaching));
        }

        foreach (RecallAnswer answer in word.Answers.Where(a => a.Day >= epoch).OrderBy(a => a.Day))
        {
            Take(answer);
        }

        // Logarithms up to here, so that a long row of answers cannot push every weight to zero.
        double most = weights.Max();
        for (int i = 0; i < Nodes; i++)
        {
            weights[i] = Math.Exp(weights[i] - most);
        }

        SumToOne();
    }

    private WordMemory(WordMemory before)
    {
        (learning, epoch, sticking) = (before.learning, before.epoch, before.sticking);
        (RecallDays, LastRecall) = (before.RecallDays, before.LastRecall);
        before.weights.CopyTo(weights, 0);
        met.AddRange(before.met);
    }

    /// <summary>Days with a recall so far.</summary>
    public int RecallDays { get; private set; }

    /// <summary>The last day with a recall; null where there was none.</summary>
    public LocalDate? LastRecall { get; private set; }

    /// <summary>The chance of knowing the word on a day, if it is recalled on some days from now until then.</summary>
    /// <param name="day">The day.</param>
    /// <param name="recalls">Days of further recalls, earliest first, all after the last one there was.</param>
    /// <returns>0 to 1.</returns>
    public double Chance(LocalDate day, params ReadOnlySpan<LocalDate> recalls) => Known(Strength(day, recalls));

    /// <summary>The days on which it was met, earliest first.</summary>
    internal ReadOnlySpan<StudyMoment> Met => CollectionsMarshal.AsSpan(met);

    /// <summary>The memory after one more recall, known and not known: the same as with the answer added to the word.</summary>
    /// <param name="day">The day of the recall, after the last one there was and after the word was met.</param>
    internal (WordMemory Knew, WordMemory Missed) After(LocalDate day)
    {
        (WordMemory knew, WordMemory missed) = (new(this), new(this));
        double strength = Strength(day, []);
        for (int i = 0; i < Nodes; i++)
        {
            double unknown = Math.Exp(-sticking[i] * strength);
            knew.weights[i] *= 1 - unknown;
            missed.weights[i] *= unknown;
        }

        foreach (WordMemory after in (ReadOnlySpan<WordMemory>)[knew, missed])
        {
            after.SumToOne();
            after.Add(day);
        }

        return (knew, missed);
    }

    /// <summary>The chance of knowing the word with some strength.</summary>
    internal double Known(double strength)
    {
        double chance = 0;
        for (int i = 0; i < Nodes; i++)
        {
            chance += weights[i] * (1 - Math.Exp(-sticking[i] * strength));
        }

        return chance;
    }

    /// <summary>The running number of a day, as in <see cref="Met"/>.</summary>
    internal int DayNumber(LocalDate day) => Period.DaysBetween(epoch, day);

    private double Strength(LocalDate day, ReadOnlySpan<LocalDate> recalls)
    {
        int count = met.Count + recalls.Length;
        Span<StudyMoment> all = count <= MostOnStack ? stackalloc StudyMoment[MostOnStack] : new StudyMoment[count];
        CollectionsMarshal.AsSpan(met).CopyTo(all);
        for (int i = 0; i < recalls.Length; i++)
        {
            all[met.Count + i] = new(DayNumber(recalls[i]), 1, StudyKind.Retrieval);
        }

        return learning.Retained(all[..count], DayNumber(day));
    }

    // A second recall on one day says little, since the definition has just been read, and leaves little: the day counts once.
    private void Take(RecallAnswer answer)
    {
        if (answer.Day == LastRecall)
        {
            return;
        }

        // Who knows a word before having met it knows it from elsewhere; that says nothing of how well it sticks.
        double strength = Strength(answer.Day, []);
        for (int i = 0; strength > 0 && i < Nodes; i++)
        {
            double unknown = -sticking[i] * strength;
            double known = Math.Log(1 - Math.Exp(unknown));
            weights[i] += answer.Outcome switch
            {
                RecallOutcome.Knew => known,
                RecallOutcome.DidNotKnow => unknown,
                _ => (known + unknown) / 2,
            };
        }

        Add(answer.Day);
    }

    private void Add(LocalDate day)
    {
        met.Add(new(DayNumber(day), 1, StudyKind.Retrieval));
        LastRecall = day;
        RecallDays++;
    }

    private void SumToOne()
    {
        double sum = weights.Sum();
        for (int i = 0; i < Nodes; i++)
        {
            weights[i] /= sum;
        }
    }
}
