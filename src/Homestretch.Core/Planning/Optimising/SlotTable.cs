using System.Collections.Immutable;

using Homestretch.Core.Learning;
using Homestretch.Core.Planning.Calendar;

using NodaTime;

namespace Homestretch.Core.Planning.Optimising;

/// <summary>Slots as the numbers that a search asks for again and again.</summary>
internal sealed class SlotTable
{
    // Most plans meet a topic on about this many days; only used to guess retention before the blocks are placed.
    private const int TypicalStudyDays = 3;

    /// <param name="slots">In time order.</param>
    /// <param name="examDay">The day of the exam.</param>
    /// <param name="learning">For the retention law's scale of days.</param>
    public SlotTable(ImmutableArray<Slot> slots, LocalDate examDay, LearningAssumptions learning)
    {
        Slots = slots;
        ExamDay = StudyHistory.DayNumber(examDay);
        Day = [.. slots.Select(s => StudyHistory.DayNumber(s.Date))];
        Hours = [.. slots.Select(s => s.Minutes / 60.0)];
        LogAge = [.. Day.Select(d => Math.Log(1 + ((ExamDay - d) / learning.RetentionScaleDays)))];
        Window = new int[slots.Length];
        List<int> firsts = [];
        for (int i = 0; i < slots.Length; i++)
        {
            if (i == 0 || slots[i].Window != slots[i - 1].Window)
            {
                firsts.Add(i);
            }

            Window[i] = firsts.Count - 1;
        }

        WindowFirst = [.. firsts, slots.Length];
        OnlyLight = slots.All(s => s.LightOnly);
        IsStudy = [.. slots.Select(s => !s.LightOnly || OnlyLight)];
        Study = [.. Enumerable.Range(0, Count).Where(i => IsStudy[i])];
        StudyDays = Study.Select(i => Day[i]).Distinct().Count();
    }

    /// <summary>The slots.</summary>
    public ImmutableArray<Slot> Slots { get; }

    /// <summary>Mean hours in a slot for study, as hours of fresh teaching.</summary>
    public double MeanHours(LearningAssumptions learning) => (OnlyLight ? learning.Review.Gain : 1) * Study.Average(i => Hours[i]);

    /// <summary>The same, less what is usually forgotten by exam day.</summary>
    public double RetainedHours(LearningAssumptions learning)
        => (OnlyLight ? learning.Review.Gain : 1) * Study.Average(i => Hours[i] * learning.Retention(ExamDay - Day[i], TypicalStudyDays));

    /// <summary>How many there are.</summary>
    public int Count => Slots.Length;

    /// <summary>Number of the exam's day (<see cref="StudyHistory.DayNumber"/>).</summary>
    public int ExamDay { get; }

    /// <summary>Number of each slot's day.</summary>
    public int[] Day { get; }

    /// <summary>Length of each slot in hours.</summary>
    public double[] Hours { get; }

    /// <summary>Logarithm of 1 + days to the exam / the retention law's scale.</summary>
    public double[] LogAge { get; }

    /// <summary>Running number of each slot's window, from 0.</summary>
    public int[] Window { get; }

    /// <summary>First slot of each window, then the number of slots.</summary>
    public int[] WindowFirst { get; }

    /// <summary>Whether the calendar holds nothing but light slots, so that all study is review.</summary>
    public bool OnlyLight { get; }

    /// <summary>Slots that take a topic's blocks of study; the others take light review of what was met before.</summary>
    public bool[] IsStudy { get; }

    /// <summary>The slots for study, in time order.</summary>
    public int[] Study { get; }

    /// <summary>Days with a slot for study.</summary>
    public int StudyDays { get; }
}
