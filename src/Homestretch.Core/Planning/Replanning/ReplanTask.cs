using System.Collections.Immutable;

using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Planning.Replanning;

/// <summary>What a new plan has to go by.</summary>
/// <param name="Standing">Where the person stands.</param>
/// <param name="Free">When the person can study.</param>
/// <param name="Busy">When the person cannot.</param>
/// <param name="From">When the plan begins.</param>
/// <param name="ExamDay">The day of the exam.</param>
/// <param name="Earlier">The earlier plan.</param>
internal sealed record ReplanTask(CandidateStanding Standing, FreeTime Free, IReadOnlyList<Interval> Busy, ZonedDateTime From, LocalDate ExamDay, EarlierPlan Earlier)
{
    /// <summary>The earlier plan's blocks with their fates as of <see cref="From"/>.</summary>
    public ImmutableArray<EarlierBlock> Blocks { get; } = DoneBlocks.Settle(Earlier, Standing.Study.Sessions, From);

    /// <summary>Those that are still to come, in time order.</summary>
    public ImmutableArray<EarlierBlock> ToCome => [.. Blocks.Where(b => b.Fate == BlockFate.Planned).OrderBy(b => b.Time.Start)];

    // A new exam day sets the light days anew; that it draws near does not.
    private LocalDate? LightFrom => ExamDay == Earlier.ExamDay ? Earlier.LightFrom : null;

    /// <summary>Slots of a plan made from scratch.</summary>
    public SlotSearch SlotsAnew() => SlotFinder.Find(Free, Busy, From, ExamDay, LightFrom);

    /// <summary>Slots that are the given blocks where they can stay, and what free time is left.</summary>
    /// <param name="kept">The blocks' times.</param>
    /// <param name="free">When the person can study; the task's own when null.</param>
    public SlotSearch SlotsAround(IEnumerable<Interval> kept, FreeTime? free = null) => SlotFinder.Find(free ?? Free, Busy, From, ExamDay, LightFrom, [.. kept]);

    /// <summary>Index of a topic of the exam.</summary>
    public int TopicOf(EarlierBlock block) => Standing.Exam.Topics.Index().First(t => t.Item.Name == block.Topic).Index;
}
