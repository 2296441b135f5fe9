using System.Runtime.InteropServices;

using NodaTime;

namespace Homestretch.Core.Words;

/// <summary>The days on which one word is best recalled, with the answers still to come averaged over.</summary>
internal sealed class WordDraft
{
    private const double Rises = 1e-9;

    private readonly WordMemory memory;
    private readonly LocalDate from;
    private readonly LocalDate examDay;
    private readonly double price;
    private readonly int step;
    private readonly List<LocalDate> days = [];
    private readonly List<LocalDate> trial = [];
    private readonly List<double> steps = [];

    /// <summary>Chooses the days: recalls are added one by one where they add most, each time followed by moving and taking out as long as that helps.</summary>
    /// <param name="memory">What is known of the word.</param>
    /// <param name="from">The first day that may be chosen; the last is the day before the exam.</param>
    /// <param name="examDay">The day of the exam.</param>
    /// <param name="price">What a recall costs, as a chance.</param>
    /// <param name="step">1 to look at every day, 2 at every second one, and so on, counted back from the exam; drafts are compared on the same days only.</param>
    public WordDraft(WordMemory memory, LocalDate from, LocalDate examDay, double price, int step)
    {
        this.memory = memory;
        this.from = from;
        this.examDay = examDay;
        this.price = price;
        this.step = step;
        Value = memory.Chance(examDay);
        while (Best(null) is { } add)
        {
            steps.Add(add.Value - Value + price);
            Take(null, add);
            while (Improvement() is { } change)
            {
                Take(change.Without, change.Better);
            }
        }
    }

    /// <summary>The chance of knowing the word on exam day, less the price of its recalls.</summary>
    public double Value { get; private set; }

    /// <summary>The chance of knowing the word on exam day.</summary>
    public double Chance => Value + (price * days.Count);

    /// <summary>Recalls that are worth their price.</summary>
    public int Recalls => days.Count;

    /// <summary>What each recall added, the price included, in the order in which they were added.</summary>
    public IReadOnlyList<double> Steps => steps;

    private void Take(LocalDate? without, (LocalDate? With, double Value) better)
    {
        if (without is { } gone)
        {
            days.Remove(gone);
        }

        if (better.With is { } day)
        {
            days.Add(day);
            days.Sort();
        }

        Value = better.Value;
    }

    // The best day to take another's place, or the other taken out.
    private (LocalDate Without, (LocalDate? With, double Value) Better)? Improvement()
    {
        foreach (LocalDate day in days)
        {
            double left = Worth(day, null);
            if (left > Value + Rises)
            {
                return (day, (null, left));
            }

            if (Best(day) is { } better)
            {
                return (day, better);
            }
        }

        return null;
    }

    // The best day to add, in the place of another one or not; null where none raises the value.
    private (LocalDate? With, double Value)? Best(LocalDate? without)
    {
        (LocalDate? With, double Value)? best = null;
        double most = Value + Rises;
        for (LocalDate day = examDay.PlusDays(-1); day >= from; day = day.PlusDays(-step))
        {
            double value = days.Contains(day) ? double.NegativeInfinity : Worth(without, day);
            if (value > most)
            {
                most = value;
                best = (day, value);
            }
        }

        return best;
    }

    private double Worth(LocalDate? without, LocalDate? with)
    {
        trial.Clear();
        foreach (LocalDate day in days)
        {
            if (with is { } early && early < day && (trial.Count == 0 || trial[^1] < early))
            {
                trial.Add(early);
            }

            if (day != without)
            {
                trial.Add(day);
            }
        }

        if (with is { } last && (trial.Count == 0 || trial[^1] < last))
        {
            trial.Add(last);
        }

        // Nothing new on the last evening.
        bool allowed = trial.Count == 0 || memory.RecallDays > 0 || trial[0] < examDay.PlusDays(-1);
        return allowed ? memory.Chance(examDay, CollectionsMarshal.AsSpan(trial)) - (price * trial.Count) : double.NegativeInfinity;
    }
}
