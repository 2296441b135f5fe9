using System.Collections.Immutable;

using Homestretch.Core.Planning.Calendar;

using NodaTime;

namespace Homestretch.Core.Laboratory;

/// <summary>What one candidate prepares for and when there is time.</summary>
/// <param name="World">The exam.</param>
/// <param name="Slots">Slots before the exam, in time order.</param>
/// <param name="From">The first day of the plan.</param>
/// <param name="Days">Days from then to the exam.</param>
internal sealed record Setting(ExamWorld World, ImmutableArray<Slot> Slots, LocalDate From, int Days)
{
    private const int DaysAfterLastQuiz = 4;

    /// <summary>The day of the exam.</summary>
    public LocalDate ExamDay => From.PlusDays(Days);

    /// <summary>Days since <see cref="From"/> that a quiz closes: none so late that nothing but light review would follow it.</summary>
    public IEnumerable<int> QuizDays(int between)
    {
        for (int day = between - 1; day <= Days - DaysAfterLastQuiz; day += between)
        {
            yield return day;
        }
    }
}
