using System.Collections.Immutable;

using CsCheck;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;
using Homestretch.Core.Tests.Planning;

using NodaTime;

namespace Homestretch.Core.Tests.Properties;

/// <summary>What must hold of every plan, on thousands of small cases: twelve people, and any calendar of up to two weeks.</summary>
public sealed class ManyPlans
{
    // Cost is in the calendars; the people are drawn once, by a seed of their own.
    private static readonly Lazy<(CandidateStanding Standing, ScoreModel Full)[]> _people = new(() => [.. Enumerable.Range(1, 12).Select(seed =>
    {
        Random random = new(seed);
        Exam exam = SampleExams.Of(
            seed % 3 == 0 ? OverallRule.Total : OverallRule.EverySection,
            seed % 3 == 0 ? new PercentCut(random.Next(50, 75)) : null,
            [.. Enumerable.Range(0, (seed % 2) + 1).Select(s => SampleExams.Section(
                $"Section {s}", new PercentCut(random.Next(45, 75)), seed % 4 == 0 ? 0 : 4, [.. Enumerable.Range(0, random.Next(2, 4)).Select(t => SampleExams.Topic($"Topic {s}.{t}", random.Next(4, 16)))]))]);
        CandidateStanding standing = StandingCalculator.Calculate(
            exam, SampleExams.Diagnostic([.. exam.Topics.Select(t => (t.Name, Items: random.Next(1, 12))).Select(t => (t.Name, random.Next(0, t.Items + 1), t.Items))]), SampleExams.Today);
        return (standing, new ScoreModel(standing));
    })]);

    private static readonly Gen<FreeTime> _free =
        from weekly in Gen.Select(Gen.Int[1, 7], Gen.Int[24, 80], Gen.Int[2, 12]).Array[0, 4]
        from extra in Gen.Select(Gen.Int[0, 14], Gen.Int[24, 80], Gen.Int[2, 12]).Array[0, 2]
        from off in Gen.Int[0, 14].Array[0, 2]
        from cap in Gen.Int[30, 240]
        select new FreeTime(
            PlannerTests.Zone,
            [.. weekly.Select(w => new WeeklyWindow((IsoDayOfWeek)w.Item1, Quarter(w.Item2), Quarter(w.Item2 + w.Item3)))],
            [.. off.Distinct().Select(d => PlannerTests.From.Date.PlusDays(d)).Select(d => new DateInterval(d, d))],
            [.. extra.Select(w => new ExtraWindow(PlannerTests.From.Date.PlusDays(w.Item1), Quarter(w.Item2), Quarter(w.Item2 + w.Item3)))],
            cap);

    private static readonly Gen<Interval> _busy =
        from hours in Gen.Int[0, 24 * 14]
        from minutes in Gen.Int[10, 500]
        select new Interval(PlannerTests.From.ToInstant() + Duration.FromHours(hours), PlannerTests.From.ToInstant() + Duration.FromHours(hours) + Duration.FromMinutes(minutes));

    private static readonly Gen<(int Person, FreeTime Free, Interval[] Busy, LocalDate ExamDay)> _cases =
        from person in Gen.Int[0, 11]
        from free in _free
        from busy in _busy.Array[0, 5]
        from days in Gen.Int[0, 14]
        select (person, free, busy, PlannerTests.From.Date.PlusDays(days));

    [Fact]
    public void No_plan_exceeds_the_cap_uses_busy_time_teaches_after_the_last_day_or_puts_a_quiz_before_its_teaching()
        => _cases.Sample(
            c =>
            {
                CandidateStanding standing = _people.Value[c.Person].Standing;
                (PlanDraft practice, PlanDraft optimised) = Drafts(c.Person, c.Free, c.Busy, c.ExamDay);
                CheckRules(practice, standing, c.Free, c.Busy, c.ExamDay);
                CheckRules(optimised, standing, c.Free, c.Busy, c.ExamDay);
            },
            iter: 10_000);

    [Fact]
    public void The_optimised_plan_is_never_below_the_practice_order()
        => _cases.Sample(
            c =>
            {
                PolicyDrafts drafts = PolicyDrafts.Make(_people.Value[c.Person].Standing, c.Free, c.Busy, PlannerTests.From, c.ExamDay);
                Assert.True(drafts.AfterOptimised.PassChance >= drafts.AfterPractice.PassChance);
                Assert.True(drafts.AfterPractice.PassChance >= drafts.Now.PassChance - 1e-6);
            },
            iter: 2_000);

    private static (PlanDraft Practice, PlanDraft Optimised) Drafts(int person, FreeTime free, Interval[] busy, LocalDate examDay)
    {
        CandidateStanding standing = _people.Value[person].Standing;
        PlanDrafter drafter = new(standing, new ScoreModel(standing, null, QuadratureDetail.Coarse), SlotFinder.Find(free, busy, PlannerTests.From, examDay).Slots, examDay);
        PlanDraft practice = drafter.PracticeOrder();
        return (practice, drafter.Optimised(practice, CancellationToken.None));
    }

    private static void CheckRules(PlanDraft plan, CandidateStanding standing, FreeTime free, Interval[] busy, LocalDate examDay)
    {
        Instant last = PlannerTests.From.ToInstant();
        foreach (PlacedPiece piece in plan.Pieces)
        {
            LocalDateTime start = piece.Slot.Start.InZone(free.Zone).LocalDateTime;
            LocalDateTime end = piece.Slot.End.InZone(free.Zone).LocalDateTime;
            Assert.True(piece.Slot.Start >= last && start.Date < examDay, "before the plan, over another block, or too late");
            Assert.InRange(piece.Slot.Minutes, 25, 50);
            Assert.DoesNotContain(busy, b => b.Start < piece.Slot.End && piece.Slot.Start < b.End);
            Assert.DoesNotContain(free.DaysOff, d => d.Contains(start.Date) && free.Extra.All(w => w.Date != start.Date));
            Assert.True(IsFree(free, start, end), $"{start} to {end} is not free");
            Assert.True(start.Date < examDay.PlusDays(-1) || piece.Purpose == BlockPurpose.Review, "something new on the eve");
            last = piece.Slot.End;
        }

        Assert.All(plan.Pieces.GroupBy(p => p.Slot.Date), day => Assert.True(day.Sum(p => p.Slot.Minutes) <= free.DailyCapMinutes));
        foreach (IGrouping<int, PlacedPiece> topic in plan.Pieces.GroupBy(p => p.Topic))
        {
            BlockPurpose[] purposes = [.. topic.Select(p => p.Purpose)];
            Assert.Equal(purposes.Order(), purposes);
            Assert.True(!purposes.Contains(BlockPurpose.Quiz) || purposes[0] == BlockPurpose.Learn, "a quiz without teaching");
            Assert.InRange(topic.Key, 0, standing.Topics.Length - 1);
        }
    }

    // Windows that touch or overlap are one.
    private static bool IsFree(FreeTime free, LocalDateTime start, LocalDateTime end)
    {
        LocalTime at = start.TimeOfDay;
        (LocalTime Start, LocalTime End)[] windows =
        [
            .. free.Weekly.Where(w => w.Day == start.DayOfWeek).Select(w => (w.Start, w.End))
                .Concat(free.Extra.Where(w => w.Date == start.Date).Select(w => (w.Start, w.End))).Order(),
        ];
        foreach ((LocalTime from, LocalTime to) in windows)
        {
            at = from <= at && to > at ? to : at;
        }

        return at >= end.TimeOfDay && windows.Any(w => w.Start <= start.TimeOfDay && w.End > start.TimeOfDay);
    }

    private static LocalTime Quarter(int quarter) => LocalTime.FromMinutesSinceMidnight(Math.Min(95, quarter) * 15);
}
