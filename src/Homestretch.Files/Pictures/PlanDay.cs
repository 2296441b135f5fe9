using System.Collections.Immutable;

using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;

using NodaTime;

namespace Homestretch.Files.Pictures;

/// <summary>One day of a plan as the calendar shows it.</summary>
/// <param name="Date">The day.</param>
/// <param name="IsExam">Whether it is the day of the exam.</param>
/// <param name="Windows">Free time and blocks, in time order.</param>
internal sealed record PlanDay(LocalDate Date, bool IsExam, ImmutableArray<PlanWindow> Windows)
{
    /// <summary>Blocks of the day in time order.</summary>
    public IEnumerable<StudyBlock> Blocks => Windows.SelectMany(w => w.Blocks);

    /// <summary>Study minutes of the day.</summary>
    public int Minutes => Blocks.Sum(b => b.Minutes);

    /// <summary>"2 blocks, 1 h 20 min", "free day", "exam".</summary>
    public string Summary => IsExam && !Blocks.Any() ? "exam" : Blocks.Any() ? $"{Figures.Plural(Blocks.Count(), "block")}, {Figures.Duration(Minutes)}" : "no study";

    /// <summary>Every day from the start of a plan to the exam, in weeks that begin on Monday.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="slots">Usable free time, as ground; may be empty.</param>
    public static ImmutableArray<ImmutableArray<PlanDay>> Weeks(StudyPlan plan, ImmutableArray<Slot> slots)
    {
        ILookup<LocalDate, StudyBlock> blocks = plan.Blocks.ToLookup(b => b.Start.Date);
        ILookup<LocalDate, Slot> ground = slots.IsDefault ? Array.Empty<Slot>().ToLookup(s => s.Date) : slots.ToLookup(s => s.Date);
        LocalDate first = plan.From.Date;
        LocalDate last = LocalDate.Max(plan.ExamDay, first);
        List<PlanDay> days = [];
        for (LocalDate day = first; day <= last; day = day.PlusDays(1))
        {
            days.Add(new PlanDay(day, day == plan.ExamDay, PlanWindow.Of([.. blocks[day]], [.. ground[day]], plan.Zone)));
        }

        return [.. days.GroupBy(d => d.Date.PlusDays(1 - (int)d.Date.DayOfWeek)).Select(w => w.ToImmutableArray())];
    }
}
