using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

using NodaTime;

namespace Homestretch.Store.Tests;

/// <summary>On real SQLite files; nothing is mocked.</summary>
public sealed class CaseStoreTests : IDisposable
{
    private static readonly Instant Noon = Instant.FromUtc(2026, 11, 25, 12, 0);

    private readonly string _folder = Path.Combine(Path.GetTempPath(), "homestretch-store-" + Guid.NewGuid().ToString("N"));

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private string DatabasePath => Path.Combine(_folder, "inner", "homestretch.db");

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public async Task A_case_comes_back_byte_for_byte_after_the_database_is_opened_again()
    {
        StoredCase added = Case("ada-1", "Ada Ø. 例");
        CaseStore first = await CaseStore.OpenAsync(DatabasePath, Cancellation);
        await first.AddAsync(added, Cancellation);
        SqliteConnection.ClearAllPools();

        CaseStore second = await CaseStore.OpenAsync(DatabasePath, Cancellation);
        StoredCase? found = await second.FindAsync("ada-1", Cancellation);

        Assert.NotNull(found);
        Assert.Equal("Ada Ø. 例", found.Candidate);
        Assert.Equal("Registrar", found.ExamName);
        Assert.Equal(new LocalDate(2026, 12, 16), found.ExamDay);
        Assert.Equal(Noon, found.CreatedAt);
        Assert.Equal([FileRole.Exam, FileRole.Evidence, FileRole.Evidence, FileRole.FreeTime], found.Files.Select(f => f.Role));
        Assert.Equal(["exam.yaml", "a.csv", "b.csv", "free.yaml"], found.Files.Select(f => f.Name));
        Assert.All(added.Files.Zip(found.Files), pair => Assert.Equal(pair.First.Content, pair.Second.Content));
    }

    [Fact]
    public async Task A_removed_case_is_gone_until_it_is_restored_also_after_reopening()
    {
        CaseStore store = await CaseStore.OpenAsync(DatabasePath, Cancellation);
        await store.AddAsync(Case("ada-1", "Ada"), Cancellation);

        Assert.True(await store.RemoveAsync("ada-1", Noon + Duration.FromHours(1), Cancellation));
        Assert.Null(await store.FindAsync("ada-1", Cancellation));
        Assert.False(await store.ContainsAsync("ada-1", Cancellation));
        Assert.Empty(await store.ListAsync(Cancellation));
        Assert.False(await store.RemoveAsync("ada-1", Noon, Cancellation));

        CaseStore again = await CaseStore.OpenAsync(DatabasePath, Cancellation);
        CaseSummary removed = Assert.Single(await again.ListRemovedAsync(Cancellation));
        Assert.Equal(Noon + Duration.FromHours(1), removed.RemovedAt);
        Assert.True(await again.RestoreAsync("ada-1", Cancellation));
        Assert.False(await again.RestoreAsync("ada-1", Cancellation));
        StoredCase? back = await again.FindAsync("ada-1", Cancellation);
        Assert.NotNull(back);
        Assert.Equal(4, back.Files.Count);
        Assert.Empty(await again.ListRemovedAsync(Cancellation));
    }

    [Fact]
    public async Task Erasing_takes_only_cases_removed_before_the_limit_and_their_files_with_them()
    {
        CaseStore store = await CaseStore.OpenAsync(DatabasePath, Cancellation);
        foreach (string key in new[] { "old", "recent", "kept" })
        {
            await store.AddAsync(Case(key, key), Cancellation);
        }

        await store.RemoveAsync("old", Noon, Cancellation);
        await store.RemoveAsync("recent", Noon + Duration.FromDays(20), Cancellation);

        Assert.Equal(1, await store.EraseRemovedAsync(Noon + Duration.FromMilliseconds(1), Cancellation));
        Assert.Equal("recent", Assert.Single(await store.ListRemovedAsync(Cancellation)).Key);
        Assert.Equal("kept", Assert.Single(await store.ListAsync(Cancellation)).Key);
        Assert.Equal(8L, await ScalarAsync("SELECT count(*) FROM files"));
    }

    [Fact]
    public async Task A_second_case_of_the_same_key_is_refused_and_changes_nothing()
    {
        CaseStore store = await CaseStore.OpenAsync(DatabasePath, Cancellation);
        await store.AddAsync(Case("ada-1", "Ada"), Cancellation);

        await Assert.ThrowsAsync<DbUpdateException>(() => store.AddAsync(Case("ada-1", "Impostor"), Cancellation));

        Assert.Equal("Ada", Assert.Single(await store.ListAsync(Cancellation)).Candidate);
        Assert.Equal(4L, await ScalarAsync("SELECT count(*) FROM files"));
    }

    [Fact]
    public async Task Newest_cases_come_first()
    {
        CaseStore store = await CaseStore.OpenAsync(DatabasePath, Cancellation);
        await store.AddAsync(Case("first", "F", Noon), Cancellation);
        await store.AddAsync(Case("third", "T", Noon + Duration.FromDays(2)), Cancellation);
        await store.AddAsync(Case("second", "S", Noon + Duration.FromMilliseconds(5)), Cancellation);

        Assert.Equal(["third", "second", "first"], (await store.ListAsync(Cancellation)).Select(c => c.Key));
    }

    [Fact]
    public async Task Many_writers_and_readers_at_once_lose_nothing_and_never_see_half_a_case()
    {
        CaseStore store = await CaseStore.OpenAsync(DatabasePath, Cancellation);
        const int Writers = 4;
        const int Each = 10;
        using CancellationTokenSource done = CancellationTokenSource.CreateLinkedTokenSource(Cancellation);

        Task[] readers = [.. Enumerable.Range(0, 2).Select(_ => Task.Run(
            async () =>
            {
                while (!done.IsCancellationRequested)
                {
                    foreach (CaseSummary summary in await store.ListAsync(Cancellation))
                    {
                        StoredCase? found = await store.FindAsync(summary.Key, Cancellation);
                        Assert.NotNull(found);
                        Assert.Equal(4, found.Files.Count);
                    }
                }
            },
            Cancellation))];
        await Task.WhenAll(Enumerable.Range(0, Writers).Select(writer => Task.Run(
            async () =>
            {
                for (int i = 0; i < Each; i++)
                {
                    await store.AddAsync(Case($"case-{writer}-{i}", "C"), Cancellation);
                }
            },
            Cancellation)));
        await done.CancelAsync();
        await Task.WhenAll(readers);

        Assert.Equal(Writers * Each, (await store.ListAsync(Cancellation)).Count);
    }

    [Fact]
    public async Task The_database_keeps_a_write_ahead_log_and_its_folder_is_private()
    {
        await CaseStore.OpenAsync(DatabasePath, Cancellation);

        Assert.Equal("wal", await ScalarAsync("PRAGMA journal_mode"));
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(
                UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute,
                File.GetUnixFileMode(Path.GetDirectoryName(DatabasePath)!));
        }
    }

    [Fact]
    public async Task A_file_that_is_no_database_is_refused_and_left_as_it_is()
    {
        Directory.CreateDirectory(Path.GetDirectoryName(DatabasePath)!);
        await File.WriteAllTextAsync(DatabasePath, new string('x', 5000), Cancellation);

        await Assert.ThrowsAsync<SqliteException>(() => CaseStore.OpenAsync(DatabasePath, Cancellation));

        Assert.Equal(new string('x', 5000), await File.ReadAllTextAsync(DatabasePath, Cancellation));
    }

    [Fact]
    public async Task The_committed_migrations_match_the_model()
    {
        await CaseStore.OpenAsync(DatabasePath, Cancellation);
        await using HomestretchDatabase database = new(new DbContextOptionsBuilder<HomestretchDatabase>().UseSqlite($"Data Source={DatabasePath}").Options);

        Assert.False(database.Database.HasPendingModelChanges());
        Assert.Empty(await database.Database.GetPendingMigrationsAsync(Cancellation));
    }

    private static StoredCase Case(string key, string candidate, Instant? created = null) => new()
    {
        Key = key,
        Candidate = candidate,
        ExamName = "Registrar",
        ExamDay = new LocalDate(2026, 12, 16),
        CreatedAt = created ?? Noon,
        Files =
        [
            new StoredFile { Role = FileRole.Exam, Position = 0, Name = "exam.yaml", Content = [1, 2, 3, 0, 255] },
            new StoredFile { Role = FileRole.Evidence, Position = 1, Name = "a.csv", Content = [0xEF, 0xBB, 0xBF, 0x0D, 0x0A] },
            new StoredFile { Role = FileRole.Evidence, Position = 2, Name = "b.csv", Content = [] },
            new StoredFile { Role = FileRole.FreeTime, Position = 3, Name = "free.yaml", Content = [.. Enumerable.Range(0, 300_000).Select(i => (byte)i)] },
        ],
    };

    private async Task<object?> ScalarAsync(string sql)
    {
        await using SqliteConnection connection = new($"Data Source={DatabasePath}");
        await connection.OpenAsync(Cancellation);
        await using SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // every statement is a constant of this file
        command.CommandText = sql;
#pragma warning restore CA2100
        return await command.ExecuteScalarAsync(Cancellation);
    }
}
