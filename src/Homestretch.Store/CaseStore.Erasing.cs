using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

using NodaTime;

namespace Homestretch.Store;

/// <content>What goes for good.</content>
public sealed partial class CaseStore
{
    /// <summary>Erases for good the cases removed before <paramref name="before"/>; returns how many.</summary>
    public async Task<int> EraseRemovedAsync(Instant before, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        int erased = await database.Cases.Where(c => c.RemovedAt != null && c.RemovedAt < before).ExecuteDeleteAsync(cancellation);
        if (erased > 0)
        {
            await WipeAsync(database, cancellation);
        }

        return erased;
    }

    /// <summary>Erases a person for good, at once: the case, removed or not, further cases of the same name for the same exam, and every row that tells of a person of this
    /// name in the other cases of that exam. The exam stays. False where there is no such case.</summary>
    public async Task<bool> ErasePersonAsync(string key, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        await using (IDbContextTransaction transaction = await database.Database.BeginTransactionAsync(cancellation))
        {
            StoredCase? erased = await database.Cases.AsNoTracking().FirstOrDefaultAsync(c => c.Key == key, cancellation);
            if (erased is null)
            {
                return false;
            }

            var cases = await database.Cases.Where(c => c.ExamKey == erased.ExamKey).Select(c => new { c.Key, c.Candidate }).ToListAsync(cancellation);
            string[] own = [.. cases.Where(c => string.Equals(c.Candidate, erased.Candidate, StringComparison.OrdinalIgnoreCase)).Select(c => c.Key)];
            string[] others = [.. cases.Select(c => c.Key).Except(own)];
            await database.Cases.Where(c => own.Contains(c.Key)).ExecuteDeleteAsync(cancellation);
            int elsewhere = await EraseRowsAsync(database.Set<EvidenceRow>().Where(r => others.Contains(r.CaseKey)), r => r.Candidate, erased.Candidate, cancellation)
                + await EraseRowsAsync(database.Set<StudyRow>().Where(r => others.Contains(r.CaseKey)), r => r.Candidate, erased.Candidate, cancellation)
                + await EraseFromFilesAsync(database, others, erased.Candidate, cancellation);
            if (elsewhere > 0)
            {
                await database.Cases.Where(c => others.Contains(c.Key)).ExecuteUpdateAsync(set => set.SetProperty(c => c.Changes, c => c.Changes + 1), cancellation);
                foreach (string other in others)
                {
                    database.ChangeTracker.Clear();
                    await RefigureAsync(database, other, cancellation);
                }
            }

            await transaction.CommitAsync(cancellation);
        }

        await WipeAsync(database, cancellation);
        return true;
    }

    // Names are compared here, since databases disagree about capital letters beyond ASCII.
    private static async Task<int> EraseRowsAsync<T>(
        IQueryable<T> rows, System.Linq.Expressions.Expression<Func<T, string>> name, string person, CancellationToken cancellation)
        where T : KeptRow
    {
        string[] spellings = [.. (await rows.Select(name).Distinct().ToListAsync(cancellation)).Where(n => string.Equals(n, person, StringComparison.OrdinalIgnoreCase))];
        int erased = 0;
        foreach (string spelling in spellings)
        {
            System.Linq.Expressions.Expression<Func<T, bool>> same = System.Linq.Expressions.Expression.Lambda<Func<T, bool>>(
                System.Linq.Expressions.Expression.Equal(name.Body, System.Linq.Expressions.Expression.Constant(spelling)), name.Parameters);
            erased += await rows.Where(same).ExecuteDeleteAsync(cancellation);
        }

        return erased;
    }

    private static async Task<int> EraseFromFilesAsync(HomestretchDatabase database, string[] cases, string person, CancellationToken cancellation)
    {
        List<StoredFile> files = await database.Set<StoredFile>()
            .Where(f => cases.Contains(f.CaseKey) && (f.Role == FileRole.Cohort || f.Role == FileRole.Evidence)).ToListAsync(cancellation);
        int changed = 0;
        foreach (StoredFile file in files)
        {
            byte[]? rest = KeptRows.Without(file.Name, file.Content, person);
            if (rest is null)
            {
                database.Remove(file);
                changed++;
            }
            else if (!ReferenceEquals(rest, file.Content))
            {
                file.Content = rest;
                changed++;
            }
        }

        await database.SaveChangesAsync(cancellation);
        return changed;
    }

    /// <summary>Leaves nothing of deleted rows in the database's files: not in free pages, not in the log.</summary>
    private static async Task WipeAsync(HomestretchDatabase database, CancellationToken cancellation)
    {
        if (database is SqliteDatabase)
        {
            await database.Database.ExecuteSqlRawAsync("VACUUM", cancellation);
            await database.Database.ExecuteSqlRawAsync("PRAGMA wal_checkpoint(TRUNCATE)", cancellation);
            return;
        }

        // Everything of a case; exams tell of nobody.
        IEnumerable<string> tables = database.Model.GetEntityTypes()
            .Where(t => t.ClrType == typeof(StoredCase) || t.ClrType == typeof(CaseFigures) || t.ClrType.IsAssignableTo(typeof(KeptRow))).Select(t => t.GetTableName()!);
        foreach (string table in tables)
        {
#pragma warning disable EF1002, CA2100 // the names are those of the model
            await database.Database.ExecuteSqlRawAsync($"VACUUM FULL {table}", cancellation);
#pragma warning restore EF1002, CA2100
        }
    }
}
