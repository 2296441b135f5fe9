using System.Data;
using System.Data.Common;

using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

using NodaTime;

namespace Homestretch.Store;

/// <summary>Keeps exams and cases, in one SQLite file or in a PostgreSQL database. Safe to use from several threads and requests at once. Whatever a method has
/// returned from is on the disk; whatever is stopped half-way has not happened.</summary>
public sealed partial class CaseStore
{
    private readonly Func<HomestretchDatabase> _open;

    private CaseStore(Func<HomestretchDatabase> open) => _open = open;

    /// <summary>Opens a SQLite file, making the folder (readable by its owner only) and the tables where they are missing.</summary>
    /// <param name="path">The database file.</param>
    /// <param name="cancellation">Stops the opening.</param>
    /// <exception cref="SqliteException">The file is not a database, or cannot be written.</exception>
    public static async Task<CaseStore> OpenFileAsync(string path, CancellationToken cancellation = default)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        string full = Path.GetFullPath(path);
        string folder = Path.GetDirectoryName(full) ?? throw new ArgumentException("A database needs a folder.", nameof(path));
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
        }
        else
        {
            Directory.CreateDirectory(folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }

        string connection = new SqliteConnectionStringBuilder { DataSource = full, ForeignKeys = true, DefaultTimeout = 30 }.ToString();
        DbContextOptions<SqliteDatabase> options = new DbContextOptionsBuilder<SqliteDatabase>().UseSqlite(connection).AddInterceptors(new SafeWriting()).Options;
        CaseStore store = new(() => new SqliteDatabase(options));
        await using HomestretchDatabase database = store._open();
        await MigrateAsync(database, cancellation);

        // Readers go on while one writer writes; the setting stays in the file.
        await database.Database.ExecuteSqlRawAsync("PRAGMA journal_mode=WAL", cancellation);
        await store.SplitKeptFilesAsync(cancellation);
        await store.FillFiguresAsync(cancellation);

        // Whatever was erased just before the program last ended must not live on in the log.
        await database.Database.ExecuteSqlRawAsync("PRAGMA wal_checkpoint(TRUNCATE)", cancellation);
        return store;
    }

    /// <summary>Opens a PostgreSQL database that exists, making the tables where they are missing.</summary>
    /// <param name="connection">A connection string such as <c>Host=localhost;Database=homestretch;Username=coach</c>.</param>
    /// <param name="cancellation">Stops the opening.</param>
    /// <exception cref="Npgsql.NpgsqlException">The server cannot be reached, or refuses.</exception>
    /// <exception cref="ArgumentException">This is no connection string.</exception>
    public static async Task<CaseStore> OpenServerAsync(string connection, CancellationToken cancellation = default)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(connection);
        DbContextOptions<PostgresDatabase> options = new DbContextOptionsBuilder<PostgresDatabase>().UseNpgsql(connection).Options;
        CaseStore store = new(() => new PostgresDatabase(options));
        await using HomestretchDatabase database = store._open();
        await MigrateAsync(database, cancellation);
        await store.FillFiguresAsync(cancellation);
        return store;
    }

    /// <summary>Keeps a new case with everything in it, all or nothing. Where an exam's current file is the same as the new one's, the case joins that exam.</summary>
    /// <param name="added">The case, with its <see cref="StoredCase.Exam"/>.</param>
    /// <param name="cancellation">Stops the keeping.</param>
    /// <exception cref="DbUpdateException">A case of this key exists.</exception>
    public async Task AddAsync(StoredCase added, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(added);
        StoredExam exam = added.Exam ?? throw new ArgumentException("A new case brings its exam.", nameof(added));
        await using HomestretchDatabase database = _open();
        await using IDbContextTransaction transaction = await database.Database.BeginTransactionAsync(cancellation);
        string? same = await SameExamAsync(database, exam.Versions[^1].Content, cancellation);
        if (same is not null)
        {
            added.Exam = null;
            added.ExamKey = same;
        }

        Summarise(added.Plans);
        database.Cases.Add(added);
        await database.SaveChangesAsync(cancellation);
        await RefigureAsync(database, added.Key, cancellation);
        await transaction.CommitAsync(cancellation);
    }

    /// <summary>Cases in use, newest first.</summary>
    public async Task<IReadOnlyList<CaseSummary>> ListAsync(CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        return await Summaries(database.Cases.Where(c => c.RemovedAt == null).OrderByDescending(c => c.CreatedAt).ThenBy(c => c.Key))
            .ToListAsync(cancellation);
    }

    /// <summary>Removed cases that can still be brought back, latest removal first.</summary>
    public async Task<IReadOnlyList<CaseSummary>> ListRemovedAsync(CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        return await Summaries(database.Cases.Where(c => c.RemovedAt != null).OrderByDescending(c => c.RemovedAt).ThenBy(c => c.Key))
            .ToListAsync(cancellation);
    }

    /// <summary>A case in use with all that its figures rest on, or null: not its plans and words, and of its exam's files only the resources.</summary>
    public async Task<StoredCase?> FindAsync(string key, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        await using DbTransaction reading = await ReadingAsync(database, cancellation);
        return await database.Cases.AsNoTracking().AsSplitQuery()
            .Where(c => c.Key == key && c.RemovedAt == null)
            .Include(c => c.Exam!.Versions.Where(v => v.RemovedAt == null).OrderBy(v => v.Id))
            .Include(c => c.Exam!.Files.Where(f => f.RemovedAt == null && f.Role == ExamFileRole.Resources).OrderBy(f => f.Id))
            .Include(c => c.Files.Where(f => f.RemovedAt == null).OrderBy(f => f.Id))
            .Include(c => c.Evidence.Where(r => r.RemovedAt == null).OrderBy(r => r.Id))
            .Include(c => c.Sessions.Where(r => r.RemovedAt == null).OrderBy(r => r.Id))
            .Include(c => c.Decisions.Where(d => d.RemovedAt == null).OrderBy(d => d.Id))
            .Include(c => c.Results.Where(r => r.RemovedAt == null).OrderBy(r => r.Id))
            .Include(c => c.Links.Where(l => l.RemovedAt == null).OrderBy(l => l.Id))
            .FirstOrDefaultAsync(cancellation);
    }

    /// <summary>A case in use with everything that was ever kept of it, taken out or not, or null.</summary>
    public async Task<StoredCase?> FindWholeAsync(string key, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        await using DbTransaction reading = await ReadingAsync(database, cancellation);
        return await Whole(database).FirstOrDefaultAsync(c => c.Key == key && c.RemovedAt == null, cancellation);
    }

    /// <summary>The state of a case in use; null where there is no such case.</summary>
    public async Task<CaseVersion?> VersionAsync(string key, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        return await database.Cases.Where(c => c.Key == key && c.RemovedAt == null)
            .Select(c => (CaseVersion?)new CaseVersion(
                c.Changes,
                c.Exam!.Versions.Where(v => v.RemovedAt == null).Max(v => (long?)v.Id) ?? 0,
                c.Exam!.Files.Where(f => f.RemovedAt == null && f.Role == ExamFileRole.Resources).Max(f => (long?)f.Id) ?? 0))
            .FirstOrDefaultAsync(cancellation);
    }

    /// <summary>Takes a case out of use; <see cref="RestoreAsync"/> brings it back. False where no such case is in use.</summary>
    public async Task<bool> RemoveAsync(string key, Instant now, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        int changed = await database.Cases.Where(c => c.Key == key && c.RemovedAt == null)
            .ExecuteUpdateAsync(set => set.SetProperty(c => c.RemovedAt, now), cancellation);
        return changed == 1;
    }

    /// <summary>Brings a removed case back. False where no such case was removed.</summary>
    public async Task<bool> RestoreAsync(string key, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        int changed = await database.Cases.Where(c => c.Key == key && c.RemovedAt != null)
            .ExecuteUpdateAsync(set => set.SetProperty(c => c.RemovedAt, (Instant?)null), cancellation);
        return changed == 1;
    }

    private static async Task MigrateAsync(HomestretchDatabase database, CancellationToken cancellation)
    {
        // Asking first keeps the migration lock away from every ordinary start: a lock left by a killed process would block it.
        if ((await database.Database.GetPendingMigrationsAsync(cancellation)).Any())
        {
            await database.Database.MigrateAsync(cancellation);
        }
    }

    private static IQueryable<CaseSummary> Summaries(IQueryable<StoredCase> cases)
        => cases.Select(c => new CaseSummary(
            c.Key,
            c.Candidate,
            c.Exam!.Name,
            c.Decisions.Where(d => d.RemovedAt == null && d.ExamDay != null).OrderByDescending(d => d.Id).Select(d => d.ExamDay).FirstOrDefault() ?? c.ExamDay,
            c.CreatedAt,
            c.RemovedAt));

    private static IQueryable<StoredCase> Whole(HomestretchDatabase database) => database.Cases.AsNoTracking().AsSplitQuery()
        .Include(c => c.Exam!.Versions.OrderBy(v => v.Id))
        .Include(c => c.Exam!.Files.OrderBy(f => f.Id))
        .Include(c => c.Files.OrderBy(f => f.Id))
        .Include(c => c.Evidence.OrderBy(r => r.Id))
        .Include(c => c.Sessions.OrderBy(r => r.Id))
        .Include(c => c.Plans.OrderBy(p => p.Id))
        .Include(c => c.Decisions.OrderBy(d => d.Id))
        .Include(c => c.Results.OrderBy(r => r.Id))
        .Include(c => c.Words.OrderBy(w => w.Id))
        .Include(c => c.Recalls.OrderBy(r => r.Id))
        .Include(c => c.Links.OrderBy(l => l.Id));

    /// <summary>Several queries that see one state. On SQLite the transaction must not ask for the right to write, or readers would wait for writers.</summary>
    private static async Task<DbTransaction> ReadingAsync(HomestretchDatabase database, CancellationToken cancellation)
    {
        await database.Database.OpenConnectionAsync(cancellation);
        DbConnection connection = database.Database.GetDbConnection();
        DbTransaction transaction = connection is SqliteConnection sqlite
            ? sqlite.BeginTransaction(deferred: true)
            : await connection.BeginTransactionAsync(IsolationLevel.RepeatableRead, cancellation);
        await database.Database.UseTransactionAsync(transaction, cancellation);
        return transaction;
    }
}
