using System.Collections.Immutable;

using Homestretch.Core.Evidence;

using NodaTime;

namespace Homestretch.Core.Planning.Replanning;

/// <summary>Finds out which blocks of an earlier plan were done.</summary>
internal static class DoneBlocks
{
    // A session shorter than this share of a block is a start, not the block.
    private const double LeastShare = 0.5;

    /// <summary>The blocks with their fates settled as of a moment: those that a session names are done; of those whose time has passed, the ones that were studied on their day, then the ones that
    /// were studied on another; the rest are missed. Blocks to come stay planned.</summary>
    /// <param name="plan">The earlier plan.</param>
    /// <param name="sessions">What was studied up to that moment, from the beginning of the plan on.</param>
    /// <param name="from">The moment.</param>
    public static ImmutableArray<EarlierBlock> Settle(EarlierPlan plan, ImmutableArray<StudySession> sessions, ZonedDateTime from)
    {
        EarlierBlock[] blocks = [.. plan.Blocks];
        StudySession[] within = [.. sessions.Where(s => s.Date >= plan.From.Date && s.Date <= from.Date).OrderBy(s => s.Date)];
        int[] left = [.. within.Select(s => s.Minutes)];

        void Take(int block, Func<StudySession, bool> fits, bool needsMinutes)
        {
            int[] fitting = [.. Enumerable.Range(0, within.Length).Where(s => within[s].Topic == blocks[block].Topic && fits(within[s]))];
            int wanted = blocks[block].Minutes;
            if (fitting.Length == 0 || (needsMinutes && fitting.Sum(s => left[s]) < LeastShare * wanted))
            {
                return;
            }

            blocks[block] = blocks[block] with { Fate = BlockFate.Done, DoneOn = within[fitting[0]].Date };
            foreach (int session in fitting)
            {
                int used = Math.Min(wanted, left[session]);
                left[session] -= used;
                wanted -= used;
            }
        }

        int[] planned = [.. Enumerable.Range(0, blocks.Length).Where(b => blocks[b].Fate == BlockFate.Planned).OrderBy(b => blocks[b].Time.Start)];
        bool IsPast(int block) => blocks[block].Time.Start < from.ToInstant();
        int[] Open() => [.. planned.Where(b => blocks[b].Fate == BlockFate.Planned && IsPast(b))];
        foreach (int block in planned)
        {
            Take(block, s => s.Block == blocks[block].Id, needsMinutes: false);
        }

        foreach (int block in Open())
        {
            LocalDate day = blocks[block].Time.Start.InZone(from.Zone).Date;
            Take(block, s => s.Date == day, needsMinutes: true);
        }

        foreach (int block in Open())
        {
            // Minutes of one other day must do; a few here and there are not the block.
            foreach (LocalDate day in within.Select(s => s.Date).Distinct())
            {
                if (blocks[block].Fate == BlockFate.Planned)
                {
                    Take(block, s => s.Date == day, needsMinutes: true);
                }
            }
        }

        foreach (int block in Open())
        {
            blocks[block] = blocks[block] with { Fate = BlockFate.Missed };
        }

        return [.. blocks];
    }
}
