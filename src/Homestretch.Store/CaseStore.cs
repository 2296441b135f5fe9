using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

using NodaTime;

namespace Homestretch.Store;

/// <summary>Keeps uploaded cases in one SQLite file. Safe to use from several threads and requests at once.</summary>
public sealed class CaseStore
{
    private readonly DbContextOptions<HomestretchDatabase> _options;

    private CaseStore(string path)
    {
        Path = path;
        string connection = new SqliteConnectionStringBuilder { DataSource = path, ForeignKeys = true, DefaultTimeout = 15 }.ToString();
        _options = new DbContextOptionsBuilder<HomestretchDatabase>().UseSqlite(connection).Options;
    }

    /// <summary>The database file.</summary>
    public string Path { get; }

    /// <summary>Opens the database, making the folder (readable by its owner only) and the tables where they are missing.</summary>
    /// <param name="path">The database file.</param>
    /// <param name="cancellation">Stops the opening.</param>
    /// <exception cref="SqliteException">The file is not a database, or cannot be written.</exception>
    public static async Task<CaseStore> OpenAsync(string path, CancellationToken cancellation = default)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        string full = System.IO.Path.GetFullPath(path);
        string folder = System.IO.Path.GetDirectoryName(full) ?? throw new ArgumentException("A database needs a folder.", nameof(path));
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
        }
        else
        {
            Directory.CreateDirectory(folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }

        CaseStore store = new(full);
        await using HomestretchDatabase database = store.Open();

        // Asking first keeps the migration lock away from every ordinary start: a lock left by a killed process would block it.
        if ((await database.Database.GetPendingMigrationsAsync(cancellation)).Any())
        {
            await database.Database.MigrateAsync(cancellation);
        }

        // Readers go on while one writer writes; the setting stays in the file.
        await database.Database.ExecuteSqlRawAsync("PRAGMA journal_mode=WAL", cancellation);
        return store;
    }

    /// <summary>Keeps a new case with its files, all or nothing.</summary>
    /// <exception cref="DbUpdateException">A case of this key exists.</exception>
    public async Task AddAsync(StoredCase added, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = Open();
        database.Cases.Add(added);
        await database.SaveChangesAsync(cancellation);
    }

    /// <summary>Cases in use, newest first, without their files.</summary>
    public async Task<IReadOnlyList<CaseSummary>> ListAsync(CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = Open();
        return await Summaries(database.Cases.Where(c => c.RemovedAt == null).OrderByDescending(c => c.CreatedAt).ThenBy(c => c.Key))
            .ToListAsync(cancellation);
    }

    /// <summary>Removed cases that can still be brought back, latest removal first, without their files.</summary>
    public async Task<IReadOnlyList<CaseSummary>> ListRemovedAsync(CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = Open();
        return await Summaries(database.Cases.Where(c => c.RemovedAt != null).OrderByDescending(c => c.RemovedAt).ThenBy(c => c.Key))
            .ToListAsync(cancellation);
    }

    /// <summary>A case in use with its files, or null.</summary>
    public async Task<StoredCase?> FindAsync(string key, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = Open();
        return await database.Cases.AsNoTracking()
            .Include(c => c.Files.OrderBy(f => f.Position))
            .FirstOrDefaultAsync(c => c.Key == key && c.RemovedAt == null, cancellation);
    }

    /// <summary>Whether a case of this key is in use.</summary>
    public async Task<bool> ContainsAsync(string key, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = Open();
        return await database.Cases.AnyAsync(c => c.Key == key && c.RemovedAt == null, cancellation);
    }

    /// <summary>Takes a case out of use; <see cref="RestoreAsync"/> brings it back. False where no such case is in use.</summary>
    public async Task<bool> RemoveAsync(string key, Instant now, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = Open();
        int changed = await database.Cases.Where(c => c.Key == key && c.RemovedAt == null)
            .ExecuteUpdateAsync(set => set.SetProperty(c => c.RemovedAt, now), cancellation);
        return changed == 1;
    }

    /// <summary>Brings a removed case back. False where no such case was removed.</summary>
    public async Task<bool> RestoreAsync(string key, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = Open();
        int changed = await database.Cases.Where(c => c.Key == key && c.RemovedAt != null)
            .ExecuteUpdateAsync(set => set.SetProperty(c => c.RemovedAt, (Instant?)null), cancellation);
        return changed == 1;
    }

    /// <summary>Erases for good the cases removed before <paramref name="before"/>; returns how many.</summary>
    public async Task<int> EraseRemovedAsync(Instant before, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = Open();
        return await database.Cases.Where(c => c.RemovedAt != null && c.RemovedAt < before).ExecuteDeleteAsync(cancellation);
    }

    private static IQueryable<CaseSummary> Summaries(IQueryable<StoredCase> cases)
        => cases.Select(c => new CaseSummary(c.Key, c.Candidate, c.ExamName, c.ExamDay, c.CreatedAt, c.RemovedAt));

    private HomestretchDatabase Open() => new(_options);
}
