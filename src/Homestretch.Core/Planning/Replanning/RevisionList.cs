using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Forecasting;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Core.Planning.Replanning;

/// <summary>Tells a new plan's blocks from those of the earlier one: which stay, which move under their old name, which are gone, which are new, and why.</summary>
internal sealed class RevisionList
{
    // Shares correct that differ by less are not worth a word.
    private const double LevelChange = 0.03;

    // A gain in pass chance that nobody would read as one.
    private const double NoGain = 5e-4;

    private static readonly LocalDatePattern _day = LocalDatePattern.CreateWithInvariantCulture("dddd d MMMM");

    private readonly ReplanTask task;
    private readonly KeptBlocks kept;
    private readonly PlanDraft draft;
    private readonly ScoreModel model;
    private readonly double passChance;
    private readonly Dictionary<PlacedPiece, EarlierBlock> moved = [];
    private readonly Dictionary<PlacedPiece, string> names = [];
    private readonly List<EarlierBlock> gone;

    /// <param name="task">What the new plan has to go by.</param>
    /// <param name="kept">The blocks that could stay.</param>
    /// <param name="draft">The new plan's blocks.</param>
    /// <param name="model">Says what a change is worth.</param>
    public RevisionList(ReplanTask task, KeptBlocks kept, PlanDraft draft, ScoreModel model)
    {
        this.task = task;
        this.kept = kept;
        this.draft = draft;
        this.model = model;
        passChance = model.PassChance(draft.Effort);
        HashSet<string> plannedThen = [.. task.Earlier.Blocks.Where(b => b.Fate == BlockFate.Planned).Select(b => b.Id)];
        HashSet<EarlierBlock> stay = [.. draft.Pieces.Select(kept.In).OfType<EarlierBlock>()];
        gone = [.. task.Blocks.Where(b => plannedThen.Contains(b.Id) && b.Fate is BlockFate.Planned or BlockFate.Missed && !stay.Contains(b)).OrderBy(b => b.Time.Start)];
        BlockNames free = new(task.Standing.Exam, task.Blocks.Select(b => b.Id));
        foreach (PlacedPiece piece in draft.Pieces)
        {
            // A block that is gone comes back under its own name where there is a new one on its topic: a calendar then moves its event.
            if (kept.In(piece) is { } there)
            {
                names[piece] = there.Id;
            }
            else if (gone.Find(b => task.TopicOf(b) == piece.Topic) is { } again)
            {
                gone.Remove(again);
                moved[piece] = again;
                names[piece] = again.Id;
            }
            else
            {
                names[piece] = free.Next(piece.Topic);
            }
        }
    }

    /// <summary>The name of a block of the new plan.</summary>
    public string NameOf(PlacedPiece piece) => names[piece];

    /// <summary>Blocks of earlier plans that are not in the new one.</summary>
    public ImmutableArray<EarlierBlock> Earlier()
    {
        HashSet<string> inPlan = [.. names.Values];
        return [.. task.Blocks.Where(b => !inPlan.Contains(b.Id)).Select(b => b.Fate == BlockFate.Planned ? b with { Fate = BlockFate.Dropped } : b)];
    }

    /// <summary>Every difference, in time order.</summary>
    /// <param name="blocks">The new plan's blocks.</param>
    public ImmutableArray<BlockRevision> All(ImmutableArray<StudyBlock> blocks)
    {
        List<BlockRevision> changes = [];
        List<EarlierBlock> left = [.. gone];
        foreach ((PlacedPiece piece, StudyBlock block) in draft.Pieces.Zip(blocks))
        {
            if (kept.In(piece) is { } there)
            {
                if (there.Purpose != piece.Purpose)
                {
                    changes.Add(new(RevisionKind.Repurposed, there, block, null, "what comes next on a topic follows from what is done and where you stand: learn, practise, then a quiz"));
                }
            }
            else if (moved.TryGetValue(piece, out EarlierBlock? before))
            {
                changes.Add(Retimed(before, piece, block));
            }
            else if (left.Find(b => b.Fate == BlockFate.Planned && Overlap(b, piece)) is { } replaced)
            {
                left.Remove(replaced);
                changes.Add(Replaced(replaced, piece, block));
            }
            else
            {
                changes.Add(new(RevisionKind.Added, null, block, GainOver(piece, null), Level(piece.Topic, better: false) ?? "that time is free"));
            }
        }

        changes.AddRange(left.Select(b => new BlockRevision(RevisionKind.Dropped, b, null, null, WhyDropped(b))));
        return [.. changes
            .Select(c => c with { CouldStay = c.Kind != RevisionKind.Repurposed && c.Before is { } before && kept.CanStay(before) })
            .OrderBy(c => c.After?.Start.ToInstant() ?? c.Before!.Time.Start)];
    }

    private string WhyDropped(EarlierBlock block)
    {
        if (block.Fate == BlockFate.Missed)
        {
            return $"missed on {DayOf(block)}, and the time left is worth more elsewhere";
        }

        return WhyNot(block) ?? (draft.Pieces.Cast<PlacedPiece?>().FirstOrDefault(p => Overlap(block, p!.Value)) is { } instead
            ? $"{NameOf(instead.Topic)} takes its place, since {WhyInstead(task.TopicOf(block), instead.Topic)}"
            : "the time is worth more elsewhere");
    }

    private static bool Overlap(EarlierBlock block, PlacedPiece piece) => block.Time.Start < piece.Slot.End && piece.Slot.Start < block.Time.End;

    private string NameOf(int topic) => task.Standing.Exam.Topics[topic].Name;

    private BlockRevision Retimed(EarlierBlock before, PlacedPiece piece, StudyBlock block)
    {
        if (before.Fate == BlockFate.Missed)
        {
            return new(RevisionKind.MadeUp, before, block, GainOver(piece, null), $"missed on {DayOf(before)}");
        }

        if (WhyNot(before) is { } forced)
        {
            return new(RevisionKind.Moved, before, block, null, forced);
        }

        double gain = GainOver(piece, before);
        PlacedPiece? instead = draft.Pieces.Cast<PlacedPiece?>().FirstOrDefault(p => Overlap(before, p!.Value) && p.Value.Topic != piece.Topic);
        return new(RevisionKind.Moved, before, block, gain, gain < NoGain && instead is { } other ? $"it makes room for {NameOf(other.Topic)}" : "so more of it lasts until the exam");
    }

    private BlockRevision Replaced(EarlierBlock before, PlacedPiece piece, StudyBlock block)
    {
        return WhyNot(before) is { } forced
            ? new(RevisionKind.Replaced, before, block, null, forced)
            : new(RevisionKind.Replaced, before, block, GainOver(piece, before), WhyInstead(task.TopicOf(before), piece.Topic));
    }

    // Why a time goes from one topic to another.
    private string WhyInstead(int before, int after)
        => Level(before, better: true)
            ?? Level(after, better: false)
            ?? (task.Blocks.Any(b => b.Fate == BlockFate.Missed && task.TopicOf(b) == after) ? $"study of {NameOf(after)} was missed" : $"time is worth more on {NameOf(after)} now");

    // What a piece adds against the block that would otherwise be there, or against nothing.
    private double GainOver(PlacedPiece piece, EarlierBlock? before)
    {
        PlacedPiece? other = before is null
            ? null
            : new PlacedPiece(piece.Slot with { Start = before.Time.Start, Minutes = before.Minutes, Date = before.Time.Start.InZone(task.Free.Zone).Date }, task.TopicOf(before), before.Purpose);
        PlacedPiece[] pieces = [.. draft.Pieces.Where(p => p != piece), .. other is { } o ? [o] : Array.Empty<PlacedPiece>()];
        return passChance - model.PassChance(PlanDraft.EffortOf(pieces, task.Standing, task.ExamDay, model));
    }

    // Where results have moved a topic's level since the earlier plan.
    private string? Level(int topic, bool better)
    {
        TopicStanding now = task.Standing.Topics[topic];
        if (!task.Earlier.Levels.TryGetValue(now.Topic.Name, out double then) || (better ? now.Level.Mean - then : then - now.Level.Mean) < LevelChange)
        {
            return null;
        }

        return string.Create(CultureInfo.InvariantCulture, $"{now.Topic.Name} now stands at about {now.Level.Mean * 100:F0} % ({now.Level.Band.Word()}), not {then * 100:F0} % as before");
    }

    // Why a block cannot stay where it was; null where it could.
    private string? WhyNot(EarlierBlock block)
    {
        if (kept.CanStay(block))
        {
            return null;
        }

        LocalDate date = block.Time.Start.InZone(task.Free.Zone).Date;
        if (date >= task.ExamDay)
        {
            return $"the exam is on {_day.Format(task.ExamDay)} now";
        }

        if (SlotFinder.IsBusy(task.Busy, block.Time))
        {
            return "you are busy then";
        }

        if (date >= kept.Search.LightFrom)
        {
            return "the last days before the exam are for light review";
        }

        bool Fits(FreeTime free) => task.SlotsAround([block.Time], free).Holds(block.Time);
        return Fits(task.Free)
            ? kept.Search.Holds(block.Time) ? "one window holds two topics at most" : "the daily cap leaves no room for it"
            : "that time is no longer free";
    }

    private string DayOf(EarlierBlock block) => _day.Format(block.Time.Start.InZone(task.Free.Zone).Date);
}
