using System.Collections.Immutable;

using Homestretch.Core.Learning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Optimising;

using NodaTime;

namespace Homestretch.Core.Laboratory;

/// <summary>When there is time before an exam, made once and shared by all candidates who have it.</summary>
internal sealed class StudyTime
{
    private const int DaysAfterLastQuiz = 4;

    /// <param name="slots">Slots before the exam, in time order.</param>
    /// <param name="from">The first day of the plan.</param>
    /// <param name="days">Days from then to the exam.</param>
    /// <param name="daysBetweenQuizzes">A quiz closes every so many days.</param>
    public StudyTime(ImmutableArray<Slot> slots, LocalDate from, int days, int daysBetweenQuizzes)
    {
        Slots = slots;
        From = from;
        Days = days;
        Day = [.. slots.Select(s => Period.DaysBetween(from, s.Date))];
        QuizDays = [.. Enumerable.Range(1, days).Select(n => (n * daysBetweenQuizzes) - 1).TakeWhile(day => day <= days - DaysAfterLastQuiz)];
        PhaseStarts = [0, .. QuizDays.Select(day => day + 1)];
        FirstSlots = [.. PhaseStarts.Select(start => Day.Count(day => day < start))];
        Calendars = [.. FirstSlots.Select(first => new SlotTable([.. slots.Skip(first)], from.PlusDays(days), LearningAssumptions.Default))];
    }

    /// <summary>Slots before the exam, in time order.</summary>
    public ImmutableArray<Slot> Slots { get; }

    /// <summary>The first day of the plan.</summary>
    public LocalDate From { get; }

    /// <summary>Days from then to the exam.</summary>
    public int Days { get; }

    /// <summary>The day of each slot, counted from the first.</summary>
    public ImmutableArray<int> Day { get; }

    /// <summary>Days that a quiz closes: none so late that nothing but light review would follow it.</summary>
    public ImmutableArray<int> QuizDays { get; }

    /// <summary>First day of each phase: the plan is made then. A quiz ends a phase.</summary>
    public ImmutableArray<int> PhaseStarts { get; }

    /// <summary>First slot of each phase.</summary>
    public ImmutableArray<int> FirstSlots { get; }

    /// <summary>The calendar from each phase on.</summary>
    public ImmutableArray<SlotTable> Calendars { get; }

    /// <summary>The day of the exam.</summary>
    public LocalDate ExamDay => From.PlusDays(Days);
}
