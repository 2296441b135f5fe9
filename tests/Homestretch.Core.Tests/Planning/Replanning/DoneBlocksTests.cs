using Homestretch.Core.Evidence;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Replanning;

using NodaTime;

namespace Homestretch.Core.Tests.Planning.Replanning;

public class DoneBlocksTests
{
    private static readonly ZonedDateTime Monday = PlannerTests.Zone.AtStrictly(new LocalDateTime(2026, 11, 30, 0, 0));

    [Fact]
    public void Blocks_of_the_day_and_topic_are_done_the_others_missed_and_those_to_come_still_planned()
        => Check(
            "a-1 Done 30, a-2 Missed, b-1 Done 1, b-2 Planned",
            from: 3,
            [Block("a-1", "A", 0), Block("a-2", "A", 1), Block("b-1", "B", 1, hour: 19), Block("b-2", "B", 3)],
            [Session("A", 0, 45), Session("B", 1, 40)]);

    [Fact]
    public void A_block_studied_on_another_day_is_done_on_that_day()
        => Check("a-1 Done 1", from: 3, [Block("a-1", "A", 0)], [Session("A", 1, 45)]);

    [Fact]
    public void Minutes_count_once_and_half_a_block_is_enough()
    {
        Check("a-1 Done 30, a-2 Missed", from: 3, [Block("a-1", "A", 0), Block("a-2", "A", 0, hour: 19)], [Session("A", 0, 60)]);
        Check("a-1 Done 30, a-2 Done 30", from: 3, [Block("a-1", "A", 0), Block("a-2", "A", 0, hour: 19)], [Session("A", 0, 75)]);
        Check("a-1 Missed", from: 3, [Block("a-1", "A", 0)], [Session("A", 0, 20)]);
        Check("a-1 Done 30", from: 3, [Block("a-1", "A", 0)], [Session("A", 0, 15), Session("A", 0, 15)]);
    }

    [Fact]
    public void A_day_s_own_blocks_come_before_those_of_other_days()
        => Check("a-1 Missed, a-2 Done 1", from: 3, [Block("a-1", "A", 0), Block("a-2", "A", 1)], [Session("A", 1, 50)]);

    [Fact]
    public void A_session_that_names_its_block_settles_it_even_before_its_time()
    {
        Check("a-1 Missed, a-2 Done 30", from: 2, [Block("a-1", "A", 0), Block("a-2", "A", 4)], [Session("A", 0, 20) with { Block = "a-2" }]);
        Check("a-1 Missed", from: 2, [Block("a-1", "A", 0)], [Session("B", 0, 50) with { Block = "a-1" }]);
    }

    [Fact]
    public void Study_before_the_plan_and_after_the_moment_does_not_count()
        => Check("a-1 Missed", from: 2, [Block("a-1", "A", 0)], [Session("A", -1, 50), Session("A", 3, 50)]);

    [Fact]
    public void Fates_that_were_settled_before_stay()
        => Check(
            "a-1 Missed, a-2 Done 30",
            from: 3,
            [Block("a-1", "A", 0) with { Fate = BlockFate.Missed }, Block("a-2", "A", 0, hour: 19)],
            [Session("A", 0, 50)]);

    private static void Check(string expected, int from, EarlierBlock[] blocks, StudySession[] sessions)
    {
        EarlierPlan plan = new(Monday, new LocalDate(2026, 12, 16), new LocalDate(2026, 12, 14), new LocalDate(2026, 12, 16), [.. blocks], System.Collections.Immutable.ImmutableDictionary<string, double>.Empty);

        string told = string.Join(", ", DoneBlocks.Settle(plan, [.. sessions], Monday.PlusHours(24 * from)).Select(b => $"{b.Id} {b.Fate}" + (b.DoneOn is { } day ? $" {day.Day}" : "")));

        Assert.Equal(expected, told);
    }

    private static EarlierBlock Block(string id, string topic, int day, int hour = 18)
        => new(id, new Interval(At(day, hour), At(day, hour) + Duration.FromMinutes(50)), topic, BlockPurpose.Learn, BlockFate.Planned);

    private static StudySession Session(string topic, int day, int minutes) => new("Someone", topic, Monday.Date.PlusDays(day), minutes, StudyKind.Teaching);

    private static Instant At(int day, int hour) => Monday.ToInstant() + Duration.FromHours((24 * day) + hour);
}
