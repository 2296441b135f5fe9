using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

using NodaTime;

namespace Homestretch.Store;

/// <content>Exams, their versions, and what there is to study from.</content>
public sealed partial class CaseStore
{
    /// <summary>All exams, by name.</summary>
    public async Task<IReadOnlyList<ExamSummary>> ListExamsAsync(CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        List<ExamSummary> exams = await database.Exams
            .Select(e => new ExamSummary(
                e.Key,
                e.Name,
                database.Cases.Count(c => c.ExamKey == e.Key && c.RemovedAt == null),
                e.Versions.Where(v => v.RemovedAt == null).OrderByDescending(v => v.Id).Select(v => v.At).First()))
            .ToListAsync(cancellation);

        // Sorted here, since databases disagree about capital letters.
        return [.. exams.OrderBy(e => e.Name, StringComparer.OrdinalIgnoreCase).ThenBy(e => e.Key, StringComparer.Ordinal)];
    }

    /// <summary>An exam with every version and file that was ever kept of it, taken out or not, oldest first; null where there is none of this key.</summary>
    public async Task<StoredExam?> FindExamAsync(string key, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        return await WholeExams(database).FirstOrDefaultAsync(e => e.Key == key, cancellation);
    }

    /// <summary>The version of an exam's file that counts; null where there is no such exam.</summary>
    public async Task<StoredExamVersion?> CurrentVersionAsync(string key, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        return await database.Set<StoredExamVersion>().AsNoTracking().Where(v => v.ExamKey == key && v.RemovedAt == null).OrderByDescending(v => v.Id).FirstOrDefaultAsync(cancellation);
    }

    /// <summary>The files of an exam that count, oldest first.</summary>
    /// <param name="key">The exam.</param>
    /// <param name="role">What they are for.</param>
    /// <param name="cancellation">Stops the looking.</param>
    public async Task<IReadOnlyList<StoredExamFile>> ExamFilesAsync(string key, ExamFileRole role, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        return await database.Set<StoredExamFile>().AsNoTracking()
            .Where(f => f.ExamKey == key && f.Role == role && f.RemovedAt == null).OrderBy(f => f.Id).ToListAsync(cancellation);
    }

    /// <summary>The numbers of an exam's files that count, oldest first.</summary>
    public async Task<IReadOnlyList<long>> ExamFileIdsAsync(string key, ExamFileRole role, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        return await database.Set<StoredExamFile>().Where(f => f.ExamKey == key && f.Role == role && f.RemovedAt == null).OrderBy(f => f.Id).Select(f => f.Id).ToListAsync(cancellation);
    }

    /// <summary>The exam that a case in use prepares for; null where there is no such case.</summary>
    public async Task<string?> ExamKeyAsync(string key, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        return await database.Cases.Where(c => c.Key == key && c.RemovedAt == null).Select(c => c.ExamKey).FirstOrDefaultAsync(cancellation);
    }

    /// <summary>The words that count of everybody who prepares for an exam, in the order they came.</summary>
    public async Task<IReadOnlyList<WordRow>> WordsOfExamAsync(string key, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        return await database.Cases.Where(c => c.ExamKey == key && c.RemovedAt == null).SelectMany(c => c.Words).Where(w => w.RemovedAt == null)
            .OrderBy(w => w.Id).AsNoTracking().ToListAsync(cancellation);
    }

    /// <summary>Keeps a new exam for which nobody prepares yet.</summary>
    /// <param name="added">The exam, with at least one version.</param>
    /// <param name="cancellation">Stops the keeping.</param>
    /// <exception cref="DbUpdateException">An exam of this key exists.</exception>
    public async Task AddExamAsync(StoredExam added, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(added);
        await using HomestretchDatabase database = _open();
        database.Exams.Add(added);
        await database.SaveChangesAsync(cancellation);
    }

    /// <summary>Keeps a new version of an exam's file, which counts from now on, for every case of the exam; false where there is no such exam.</summary>
    /// <param name="key">The exam.</param>
    /// <param name="version">Its file.</param>
    /// <param name="name">The exam's name in that file.</param>
    /// <param name="cancellation">Stops the keeping.</param>
    public async Task<bool> AddExamVersionAsync(string key, StoredExamVersion version, string name, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(version);
        await using HomestretchDatabase database = _open();
        await using IDbContextTransaction transaction = await database.Database.BeginTransactionAsync(cancellation);
        if (!await RenameAsync(database, key, name, cancellation))
        {
            return false;
        }

        version.ExamKey = key;
        database.Add(version);
        await database.SaveChangesAsync(cancellation);
        await transaction.CommitAsync(cancellation);
        return true;
    }

    /// <summary>Takes a version of an exam's file out, so that the one before it counts again, or puts it back. False where there is no such version in that state, or where none would be left.</summary>
    /// <param name="key">The exam.</param>
    /// <param name="id">The version's number.</param>
    /// <param name="removedAt">When it is taken out; null to put it back.</param>
    /// <param name="name">The exam's name in the file that counts afterwards.</param>
    /// <param name="cancellation">Stops it.</param>
    public async Task<bool> MarkExamVersionAsync(string key, long id, Instant? removedAt, string name, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        await using IDbContextTransaction transaction = await database.Database.BeginTransactionAsync(cancellation);
        if (!await RenameAsync(database, key, name, cancellation)
            || await database.Set<StoredExamVersion>().Where(v => v.ExamKey == key && v.Id == id && (v.RemovedAt == null) == (removedAt != null))
                .ExecuteUpdateAsync(set => set.SetProperty(v => v.RemovedAt, removedAt), cancellation) == 0
            || !await database.Set<StoredExamVersion>().AnyAsync(v => v.ExamKey == key && v.RemovedAt == null, cancellation))
        {
            return false;
        }

        await transaction.CommitAsync(cancellation);
        return true;
    }

    /// <summary>Keeps files beside an exam's blueprint, all or none; false where there is no such exam.</summary>
    /// <param name="key">The exam.</param>
    /// <param name="files">The files, read without a problem.</param>
    /// <param name="cancellation">Stops the keeping.</param>
    public async Task<bool> KeepExamFilesAsync(string key, IEnumerable<StoredExamFile> files, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(files);
        await using HomestretchDatabase database = _open();
        await using IDbContextTransaction transaction = await database.Database.BeginTransactionAsync(cancellation);
        if (!await database.Exams.AnyAsync(e => e.Key == key, cancellation))
        {
            return false;
        }

        foreach (StoredExamFile file in files)
        {
            file.ExamKey = key;
            database.Add(file);
        }

        await database.SaveChangesAsync(cancellation);
        await transaction.CommitAsync(cancellation);
        return true;
    }

    /// <summary>Takes files of an exam out, or puts them back; returns how many.</summary>
    /// <param name="key">The exam.</param>
    /// <param name="ids">Which.</param>
    /// <param name="removedAt">When they are taken out; null to put them back.</param>
    /// <param name="cancellation">Stops it.</param>
    public async Task<int> MarkExamFilesAsync(string key, IReadOnlyCollection<long> ids, Instant? removedAt, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(ids);
        await using HomestretchDatabase database = _open();
        return await database.Set<StoredExamFile>().Where(f => f.ExamKey == key && ids.Contains(f.Id) && (f.RemovedAt == null) == (removedAt != null))
            .ExecuteUpdateAsync(set => set.SetProperty(f => f.RemovedAt, removedAt), cancellation);
    }

    private static IQueryable<StoredExam> WholeExams(HomestretchDatabase database)
        => database.Exams.AsNoTracking().AsSplitQuery().Include(e => e.Versions.OrderBy(v => v.Id)).Include(e => e.Files.OrderBy(f => f.Id));

    // The first writer of a transaction makes the others wait.
    private static async Task<bool> RenameAsync(HomestretchDatabase database, string key, string name, CancellationToken cancellation)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        return await database.Exams.Where(e => e.Key == key).ExecuteUpdateAsync(set => set.SetProperty(e => e.Name, name), cancellation) == 1;
    }
}
