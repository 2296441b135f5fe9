using System.Data.Common;

using Homestretch.Files;

using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

using NodaTime;

namespace Homestretch.Store;

/// <content>What is added to a case, taken out and put back.</content>
public sealed partial class CaseStore
{
    /// <summary>Adds to a case in use, all or nothing; false where there is no such case.</summary>
    /// <param name="key">The case.</param>
    /// <param name="rows">What is added, in order.</param>
    /// <param name="cancellation">Stops the adding.</param>
    public Task<bool> KeepAsync(string key, IEnumerable<KeptRow> rows, CancellationToken cancellation = default)
        => KeepAllAsync(new Dictionary<string, IEnumerable<KeptRow>> { [key] = rows }, cancellation);

    /// <summary>Adds to several cases in use, all or nothing; false where one of them is no such case, and nothing was added then.</summary>
    /// <param name="rows">What is added to each case, in order, by the case's key.</param>
    /// <param name="cancellation">Stops the adding; nothing is added then.</param>
    public async Task<bool> KeepAllAsync(IReadOnlyDictionary<string, IEnumerable<KeptRow>> rows, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(rows);
        await using HomestretchDatabase database = _open();
        await using IDbContextTransaction transaction = await database.Database.BeginTransactionAsync(cancellation);

        // Always in the same order, so that two writers of the same cases wait for each other and never cross.
        foreach ((string key, IEnumerable<KeptRow> added) in rows.OrderBy(r => r.Key, StringComparer.Ordinal))
        {
            KeptRow[] all = [.. added];
            if (!await TouchAsync(database, key, Array.Exists(all, r => ChangesFigures(r.GetType())), cancellation))
            {
                return false;
            }

            foreach (KeptRow row in all)
            {
                row.CaseKey = key;
                database.Add(row);
            }

            Summarise(all.OfType<PlanVersion>());
            await database.SaveChangesAsync(cancellation);
            database.ChangeTracker.Clear();
            await RefigureAsync(database, key, cancellation);
        }

        await transaction.CommitAsync(cancellation);
        return true;
    }

    /// <summary>Takes rows out of a case, so that they no longer count; returns how many.</summary>
    /// <typeparam name="T">What kind of rows.</typeparam>
    /// <param name="key">The case.</param>
    /// <param name="ids">Which.</param>
    /// <param name="now">When.</param>
    /// <param name="cancellation">Stops it.</param>
    public Task<int> TakeOutAsync<T>(string key, IReadOnlyCollection<long> ids, Instant now, CancellationToken cancellation = default)
        where T : KeptRow
        => MarkAsync<T>(key, ids, now, cancellation);

    /// <summary>Puts rows back that were taken out; returns how many.</summary>
    /// <typeparam name="T">What kind of rows.</typeparam>
    /// <param name="key">The case.</param>
    /// <param name="ids">Which.</param>
    /// <param name="cancellation">Stops it.</param>
    public Task<int> PutBackAsync<T>(string key, IReadOnlyCollection<long> ids, CancellationToken cancellation = default)
        where T : KeptRow
        => MarkAsync<T>(key, ids, null, cancellation);

    /// <summary>Takes rows out of a case or puts them back; returns how many.</summary>
    /// <typeparam name="T">What kind of rows.</typeparam>
    /// <param name="key">The case.</param>
    /// <param name="ids">Which.</param>
    /// <param name="removedAt">When they are taken out; null to put them back.</param>
    /// <param name="cancellation">Stops it.</param>
    public async Task<int> MarkAsync<T>(string key, IReadOnlyCollection<long> ids, Instant? removedAt, CancellationToken cancellation = default)
        where T : KeptRow
    {
        ArgumentNullException.ThrowIfNull(ids);
        await using HomestretchDatabase database = _open();
        await using IDbContextTransaction transaction = await database.Database.BeginTransactionAsync(cancellation);
        if (!await TouchAsync(database, key, ChangesFigures(typeof(T)), cancellation))
        {
            return 0;
        }

        int changed = await database.Set<T>().Where(r => r.CaseKey == key && ids.Contains(r.Id) && (r.RemovedAt == null) == (removedAt != null))
            .ExecuteUpdateAsync(set => set.SetProperty(r => r.RemovedAt, removedAt), cancellation);
        await RefigureAsync(database, key, cancellation);
        await transaction.CommitAsync(cancellation);
        return changed;
    }

    /// <summary>The numbers of a case's plans, oldest first.</summary>
    public async Task<IReadOnlyList<long>> PlanIdsAsync(string key, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        return await database.Set<PlanVersion>().Where(p => p.CaseKey == key && p.RemovedAt == null).OrderBy(p => p.Id).Select(p => p.Id).ToListAsync(cancellation);
    }

    /// <summary>A plan, which never changes; null where there is none of this number.</summary>
    public async Task<PlanVersion?> PlanAsync(long id, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        return await database.Set<PlanVersion>().AsNoTracking().FirstOrDefaultAsync(p => p.Id == id, cancellation);
    }

    /// <summary>The study sessions of a case that count, in the order they came.</summary>
    public async Task<IReadOnlyList<StudyRow>> SessionsAsync(string key, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        return await database.Set<StudyRow>().AsNoTracking().Where(p => p.CaseKey == key && p.RemovedAt == null).OrderBy(p => p.Id).ToListAsync(cancellation);
    }

    /// <summary>The words of a case that count and their recalls, in the order they came.</summary>
    public async Task<(IReadOnlyList<WordRow> Words, IReadOnlyList<RecallRow> Recalls)> WordsAsync(string key, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        await using DbTransaction reading = await ReadingAsync(database, cancellation);
        return (
            await database.Set<WordRow>().AsNoTracking().Where(w => w.CaseKey == key && w.RemovedAt == null).OrderBy(w => w.Id).ToListAsync(cancellation),
            await database.Set<RecallRow>().AsNoTracking().Where(r => r.CaseKey == key && r.RemovedAt == null).OrderBy(r => r.Id).ToListAsync(cancellation));
    }

    /// <summary>The personal links of a case that open, oldest first.</summary>
    public async Task<IReadOnlyList<PersonalLink>> LinksAsync(string key, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        return await database.Set<PersonalLink>().AsNoTracking().Where(p => p.CaseKey == key && p.RemovedAt == null).OrderBy(p => p.Id).ToListAsync(cancellation);
    }

    /// <summary>The case in use whose pages a link opens; null where the link is unknown or revoked.</summary>
    /// <param name="pageHash">SHA-256 of its token, in hexadecimal.</param>
    /// <param name="cancellation">Stops the looking.</param>
    public async Task<string?> CaseOfPageAsync(string pageHash, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        return await database.Cases.Where(c => c.RemovedAt == null && c.Links.Any(l => l.RemovedAt == null && l.PageHash == pageHash))
            .Select(c => c.Key).FirstOrDefaultAsync(cancellation);
    }

    /// <summary>The case in use whose calendar a link feeds; null where the link is unknown or revoked.</summary>
    /// <param name="feedHash">SHA-256 of its token, in hexadecimal.</param>
    /// <param name="cancellation">Stops the looking.</param>
    public async Task<string?> CaseOfFeedAsync(string feedHash, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        return await database.Cases.Where(c => c.RemovedAt == null && c.Links.Any(l => l.RemovedAt == null && l.FeedHash == feedHash))
            .Select(c => c.Key).FirstOrDefaultAsync(cancellation);
    }

    // Plans follow from the rest, links only open it, and words are recalled beside the plan.
    private static bool ChangesFigures(Type row)
        => row != typeof(PlanVersion) && row != typeof(PersonalLink) && row != typeof(WordRow) && row != typeof(RecallRow);

    // Marks the case as changed, unless what comes changes no figure. The first writer of a transaction makes the others wait, so that changes of one case never mix.
    private static async Task<bool> TouchAsync(HomestretchDatabase database, string key, bool changes, CancellationToken cancellation)
    {
        int more = changes ? 1 : 0;
        return await database.Cases.Where(c => c.Key == key && c.RemovedAt == null)
            .ExecuteUpdateAsync(set => set.SetProperty(c => c.Changes, c => c.Changes + more), cancellation) == 1;
    }

    /// <summary>Databases of the first version kept evidence as whole files. Each becomes rows, file by file; one that cannot be taken apart stays a file, and whoever
    /// reads the case is told what is wrong with it.</summary>
    private async Task SplitKeptFilesAsync(CancellationToken cancellation)
    {
        await using HomestretchDatabase database = _open();
        List<long> ids = await database.Set<StoredFile>().Where(f => f.Role == FileRole.Evidence).OrderBy(f => f.Id).Select(f => f.Id).ToListAsync(cancellation);
        foreach (long id in ids)
        {
            database.ChangeTracker.Clear();
            StoredFile file = await database.Set<StoredFile>().SingleAsync(f => f.Id == id, cancellation);
            ReadResult<IReadOnlyList<EvidenceRow>> rows = KeptRows.Evidence(file.Name, file.Content, file.At);
            if (rows.Value is not { } evidence)
            {
                continue;
            }

            foreach (EvidenceRow row in evidence)
            {
                row.CaseKey = file.CaseKey;
                database.Add(row);
            }

            database.Remove(file);
            await database.SaveChangesAsync(cancellation);
        }
    }
}
