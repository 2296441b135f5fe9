using System.Collections.Immutable;

using Homestretch.Files.Pictures;
using Homestretch.Store;
using Homestretch.Web.Cases;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Web.Candidates;

/// <summary>What a candidate's own pages show.</summary>
/// <param name="Key">The case.</param>
/// <param name="Case">The case as read.</param>
/// <param name="Now">The moment of asking, in the person's zone.</param>
/// <param name="Kept">When and why every plan was made, oldest first.</param>
/// <param name="Plans">The plans that held in the last days, oldest first, at least the last two.</param>
/// <param name="Sessions">What was recorded.</param>
public sealed record PersonalView(string Key, ReadCase Case, ZonedDateTime Now, IReadOnlyList<PlanMoment> Kept, ImmutableArray<KeptPlan> Plans, IReadOnlyList<StudyRow> Sessions)
{
    // Older blocks of which nothing was said are let go.
    private const int DaysToAsk = 7;

    /// <summary>The moment from which plans still matter: blocks since then can be asked about.</summary>
    public static Instant Since(ZonedDateTime now) => now.Zone.AtStartOfDay(now.Date.PlusDays(-DaysToAsk)).ToInstant();

    private ImmutableArray<PlannedBlock> blocks;

    /// <summary>The plan that holds now; null where the exam day has passed.</summary>
    public KeptPlan? Plan => Plans.LastOrDefault();

    /// <summary>How the pass chance has moved, plan by plan.</summary>
    public ImmutableArray<PassMoment> Moments => PlanKeeper.Moments(Kept, Now.Zone);

    /// <summary>Today's blocks.</summary>
    public ImmutableArray<PlannedBlock> Today => [.. Blocks.Where(b => b.Block.Start.Date == Now.Date)];

    /// <summary>Blocks of the last days of which nothing was said, oldest first.</summary>
    public ImmutableArray<PlannedBlock> Unsaid => [.. Blocks.Where(b => b.Row is null && b.Block.Start.Date < Now.Date && b.Block.Start.Date >= Now.Date.PlusDays(-DaysToAsk))];

    /// <summary>Days to come that have blocks.</summary>
    public ImmutableArray<IGrouping<LocalDate, PlannedBlock>> NextDays => [.. Blocks.Where(b => b.Block.Start.Date > Now.Date).GroupBy(b => b.Block.Start.Date)];

    /// <summary>Study recorded today that is none of <see cref="Today"/>'s blocks any more, since the plan was made anew.</summary>
    public ImmutableArray<StudyRow> DoneToday
    {
        get
        {
            string date = LocalDatePattern.Iso.Format(Now.Date);
            HashSet<long> shown = [.. Today.Select(b => b.Row?.Id).OfType<long>()];
            return [.. Sessions.Where(s => s.Date == date && !shown.Contains(s.Id))];
        }
    }

    /// <summary>Every block as it was to be: those of an older plan up to the moment when the next one took its place, and all of the latest.</summary>
    public ImmutableArray<PlannedBlock> Blocks => blocks.IsDefault ? blocks = [.. AllBlocks()] : blocks;

    /// <summary>Whether a row tells of a block.</summary>
    public static bool IsOf(StudyRow row, KeptBlock block)
    {
        ArgumentNullException.ThrowIfNull(row);
        ArgumentNullException.ThrowIfNull(block);
        return row.Block == block.Fields.Id && row.PlannedStart == block.Fields.Start;
    }

    private IEnumerable<PlannedBlock> AllBlocks()
    {
        for (int i = 0; i < Plans.Length; i++)
        {
            Instant? until = i + 1 < Plans.Length ? Plans[i + 1].At : null;
            foreach (KeptBlock block in Plans[i].Blocks.Where(b => until is not { } end || b.Start.ToInstant() < end))
            {
                yield return new(block, Sessions.LastOrDefault(s => IsOf(s, block)));
            }
        }
    }
}
