using CsCheck;

using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Wishes;
using Homestretch.Core.Standing;
using Homestretch.Core.Tests.Planning;

using NodaTime;

namespace Homestretch.Core.Tests.Properties;

public class WishProperties
{
    // Topics by a number, times by a slot of the calendar and a shift: mostly such as can be had.
    private static readonly Gen<(int[] Avoid, int[] Include, (int Topic, int Minutes)[] AtLeast, (int Topic, int Slot, int Shift)[] Pins)> Wishes =
        Gen.Select(
            Gen.Int[0, 99].Array[0, 2],
            Gen.Int[0, 99].Array[0, 2],
            Gen.Select(Gen.Int[0, 99], Gen.Int[10, 400]).Array[0, 2],
            Gen.Select(Gen.Int[0, 99], Gen.Int[0, 99], Gen.Frequency((3, Gen.Const(0)), (1, Gen.Int[-30, 30]))).Array[0, 3]);

    [Fact]
    public void Wishes_are_obeyed_or_refused_and_the_rules_of_a_plan_hold()
    {
        int obeyed = 0;
        Gen.Select(Generators.Cases, PlanProperties.Windows.Array[1, 8], PlanProperties.Busy.Array[0, 4], Gen.Int[3, 21], Gen.Int[60, 300], Wishes, Gen.Bool).Sample(
            (c, windows, busy, days, cap, wanted, practice) =>
            {
                CandidateStanding standing = StandingCalculator.Calculate(c.Exam, Generators.Attempts(c.Counts), SampleExams.Today);
                FreeTime free = new(PlannerTests.Zone, [.. windows], [], [], cap);
                LocalDate examDay = PlannerTests.From.Date.PlusDays(days);
                SlotSearch search = SlotFinder.Find(free, busy, PlannerTests.From, examDay);
                string Name(int n) => c.Exam.Topics[n % c.Exam.Topics.Length].Name;
                CoachWishes wishes = new(
                    [.. wanted.Avoid.Select(Name)],
                    [.. wanted.Include.Select(Name)],
                    [.. wanted.AtLeast.Select(m => new MinutesWish(Name(m.Topic), m.Minutes))],
                    [.. search.Slots.IsEmpty ? [] : wanted.Pins.Select(p => new PinWish(search.Slots[p.Slot % search.Slots.Length].Start + Duration.FromMinutes(p.Shift), Name(p.Topic)))]);
                Policy policy = practice ? Policy.PracticeOrder : Policy.Optimised;

                WishResult result = WishedPlanner.Plan(standing, free, busy, PlannerTests.From, examDay, wishes, policy);

                Assert.Equal(result.Plan is null, !result.Refusals.IsEmpty);
                if (result.Plan is not { } plan)
                {
                    return;
                }

                Interlocked.Increment(ref obeyed);
                Assert.DoesNotContain(plan.Blocks, b => wishes.Avoid.Contains(b.Topic.Name));
                Assert.All(wishes.Include, t => Assert.InRange(plan.Blocks.Count(b => b.Topic.Name == t), 2, int.MaxValue));
                Assert.All(wishes.AtLeast, m => Assert.InRange(plan.Blocks.Where(b => b.Topic.Name == m.Topic).Sum(b => b.Minutes), m.Minutes, int.MaxValue));
                Assert.All(wishes.Pins, p => Assert.Equal(p.Topic, plan.Blocks.Single(b => b.Start.ToInstant() == p.Start).Topic.Name));
                Assert.True(plan.Outcome(Policy.Optimised).PassChance >= plan.Outcome(Policy.PracticeOrder).PassChance);
                PlanProperties.CheckRules(plan, free, busy, examDay);
            },
            iter: 80);
        Assert.True(obeyed >= 10, $"Only {obeyed} cases of 80 could be obeyed.");
    }
}
