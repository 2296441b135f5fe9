using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace Homestretch.Store;

/// <content>Many cases at once.</content>
public sealed partial class CaseStore
{
    /// <summary>The exam whose current file has these bytes; null where there is none.</summary>
    public async Task<string?> ExamOfAsync(byte[] content, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        return await SameExamAsync(database, content, cancellation);
    }

    /// <summary>The people who have a case in use for an exam.</summary>
    public async Task<IReadOnlyList<string>> CandidatesOfAsync(string examKey, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        return await PeopleAsync(database, examKey, cancellation);
    }

    /// <summary>Keeps new cases for one exam, all or none of them. None is kept where a person has a case in use for that exam already.</summary>
    /// <param name="exam">The exam. Where it is here already, or another one with the same current file, the cases join that one.</param>
    /// <param name="added">The cases, without an exam.</param>
    /// <param name="cancellation">Stops the keeping; nothing is kept then.</param>
    /// <returns>The names of those who have a case already, or are given twice; empty where all cases were kept.</returns>
    public async Task<IReadOnlyList<string>> AddAllAsync(StoredExam exam, IReadOnlyList<StoredCase> added, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(added);
        await using HomestretchDatabase database = _open();
        await using IDbContextTransaction transaction = await database.Database.BeginTransactionAsync(cancellation);
        if (database is PostgresDatabase)
        {
            // SQLite lets one writer in at a time; here too, two imports of the same sheet must not pass each other.
            await database.Database.ExecuteSqlRawAsync("LOCK TABLE cases IN SHARE ROW EXCLUSIVE MODE", cancellation);
        }

        string? key = await database.Exams.AnyAsync(e => e.Key == exam.Key, cancellation) ? exam.Key : await SameExamAsync(database, exam.Versions[^1].Content, cancellation);
        HashSet<string> here = new(key is null ? [] : await PeopleAsync(database, key, cancellation), StringComparer.OrdinalIgnoreCase);
        string[] twice = [.. added.Select(c => c.Candidate).Where(c => !here.Add(c))];
        if (twice.Length > 0)
        {
            return twice;
        }

        if (key is null)
        {
            database.Add(exam);
        }

        foreach (StoredCase one in added)
        {
            one.ExamKey = key ?? exam.Key;
            Summarise(one.Plans);
            database.Add(one);
        }

        await database.SaveChangesAsync(cancellation);
        foreach (StoredCase one in added)
        {
            database.ChangeTracker.Clear();
            await RefigureAsync(database, one.Key, cancellation);
        }

        await transaction.CommitAsync(cancellation);
        return [];
    }

    private static Task<string?> SameExamAsync(HomestretchDatabase database, byte[] content, CancellationToken cancellation)
        => database.Exams
            .Where(e => e.Versions.Where(v => v.RemovedAt == null).OrderByDescending(v => v.Id).Select(v => v.Content).First() == content)
            .Select(e => e.Key)
            .FirstOrDefaultAsync(cancellation);

    private static Task<List<string>> PeopleAsync(HomestretchDatabase database, string examKey, CancellationToken cancellation)
        => database.Cases.Where(c => c.ExamKey == examKey && c.RemovedAt == null).Select(c => c.Candidate).ToListAsync(cancellation);
}
