using System.Text;

using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace Homestretch.Store.Tests;

/// <summary>On real SQLite files.</summary>
public sealed class SqliteStoreTests : CaseStoreTests, IDisposable
{
    private readonly string _folder = Path.Combine(Path.GetTempPath(), "homestretch-store-" + Guid.NewGuid().ToString("N"));

    protected override string[] Place => ["file", PathOf("first")];

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public async Task The_database_keeps_a_write_ahead_log_and_its_folder_is_private()
    {
        await OpenAsync();

        Assert.Equal("wal", await ScalarAsync("PRAGMA journal_mode"));
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(
                UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute,
                File.GetUnixFileMode(Path.GetDirectoryName(PathOf("first"))!));
        }
    }

    [Fact]
    public async Task A_file_that_is_no_database_is_refused_and_left_as_it_is()
    {
        string path = PathOf("first");
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        await File.WriteAllTextAsync(path, new string('x', 5000), Cancellation);

        await Assert.ThrowsAsync<SqliteException>(() => OpenAsync());

        Assert.Equal(new string('x', 5000), await File.ReadAllTextAsync(path, Cancellation));
    }

    [Fact]
    public async Task No_byte_of_an_erased_person_is_left_in_the_files()
    {
        CaseStore store = await OpenAsync();
        await store.AddAsync(Samples.Case("zora-quillfeather-1", "Zora Quillfeather"), Cancellation);
        StoredCase room = Samples.Case("ben-1", "Ben");
        room.Files.Add(Samples.File(FileRole.Cohort, "candidate,attempt,kind,date,topic,correct,items\nZora Quillfeather,a,quiz,2026-11-01,T,1,2\nCyd,a,quiz,2026-11-01,T,2,2\n"));
        await store.AddAsync(room, Cancellation);
        await store.KeepAsync("zora-quillfeather-1", Enumerable.Range(0, 300).Select(i => Samples.Item("Zora Quillfeather", "long", i)), Cancellation);
        await store.TakeOutAsync<EvidenceRow>("zora-quillfeather-1", [1, 2, 3], Samples.Noon, Cancellation);
        Assert.True(BytesWith("Quillfeather") > 0, "The search finds what is there.");

        Assert.True(await store.ErasePersonAsync("zora-quillfeather-1", Cancellation));

        Assert.Equal(0, BytesWith("Quillfeather"));
        Assert.Equal(0, BytesWith("quillfeather"));
        Assert.True(BytesWith("Cyd") > 0);
    }

    [Fact]
    public async Task A_case_erased_after_its_time_leaves_no_byte_either()
    {
        CaseStore store = await OpenAsync();
        await store.AddAsync(Samples.Case("zora-quillfeather-1", "Zora Quillfeather"), Cancellation);
        await store.RemoveAsync("zora-quillfeather-1", Samples.Noon, Cancellation);

        Assert.Equal(1, await store.EraseRemovedAsync(Samples.Noon + NodaTime.Duration.FromDays(30), Cancellation));

        Assert.Equal(0, BytesWith("Quillfeather"));
        Assert.Equal(0, BytesWith("quillfeather"));
    }

    [Fact]
    public async Task A_database_of_the_first_version_keeps_all_its_cases()
    {
        const string Evidence = "candidate;attempt;kind;date;topic;correct;items;note\nAda;one;quiz;22.11.2026;Cataloguing;2;5;\"a; b\"\nAda;one;quiz;22.11.2026;Pests;1;4;\n";
        Directory.CreateDirectory(Path.GetDirectoryName(PathOf("first"))!);
        await using (HomestretchDatabase old = await DatabaseAsync())
        {
            await old.GetService<IMigrator>().MigrateAsync("20261125093732_FirstTables", Cancellation);
            await old.Database.ExecuteSqlAsync(
                $"""
                INSERT INTO cases ("Key", "Candidate", "ExamName", "ExamDay", "CreatedAt", "RemovedAt") VALUES
                    ('ada-1', 'Ada', 'Registrar', '2026-12-16', '2026-11-20T10:00:00.0000000Z', NULL),
                    ('ben-1', 'Ben', 'Registrar', '2026-12-17', '2026-11-21T10:00:00.0000000Z', '2026-11-22T10:00:00.0000000Z');
                INSERT INTO files ("CaseKey", "Role", "Position", "Name", "Content") VALUES
                    ('ada-1', 'Exam', 0, 'exam.yaml', {Encoding.UTF8.GetBytes("exam: one")}),
                    ('ada-1', 'Evidence', 1, 'ada.csv', {Encoding.UTF8.GetBytes(Evidence)}),
                    ('ada-1', 'Evidence', 2, 'odd.csv', {Encoding.UTF8.GetBytes("no such columns\n1\n")}),
                    ('ada-1', 'FreeTime', 3, 'free.yaml', {Encoding.UTF8.GetBytes("zone: x")}),
                    ('ben-1', 'Exam', 0, 'exam.yaml', {Encoding.UTF8.GetBytes("exam: one")}),
                    ('ben-1', 'FreeTime', 1, 'free.yaml', {Encoding.UTF8.GetBytes("zone: y")});
                """,
                Cancellation);
        }

        CaseStore store = await OpenAsync();
        StoredCase? ada = await store.FindAsync("ada-1", Cancellation);

        Assert.NotNull(ada);
        Assert.Equal("Registrar", ada.Exam!.Name);
        Assert.Equal("exam: one", Encoding.UTF8.GetString(Assert.Single(ada.Exam.Versions).Content));
        Assert.Equal([("22.11.2026", "2", "5", "a; b", 2), ("22.11.2026", "1", "4", "", 3)], ada.Evidence.Select(r => (r.Date, r.Correct, r.Items, r.Note, r.OriginLine!.Value)));
        Assert.All(ada.Evidence, r => Assert.Equal((Origin.File, "ada.csv", ada.CreatedAt), (r.Origin, r.OriginFile, r.At)));
        Assert.Equal([FileRole.Evidence, FileRole.FreeTime], ada.Files.Select(f => f.Role));
        Assert.Equal("Ben", Assert.Single(await store.ListRemovedAsync(Cancellation)).Candidate);
        Assert.True(await store.RestoreAsync("ben-1", Cancellation));
        StoredCase? ben = await store.FindAsync("ben-1", Cancellation);
        Assert.Equal(ada.ExamKey, ben!.ExamKey);
        Assert.Equal("zone: y", Encoding.UTF8.GetString(Assert.Single(ben.Files).Content));
    }

    protected override Task<CaseStore> OpenAsync(string name = "first") => CaseStore.OpenFileAsync(PathOf(name), Cancellation);

    protected override Task<HomestretchDatabase> DatabaseAsync()
        => Task.FromResult<HomestretchDatabase>(new SqliteDatabase(new DbContextOptionsBuilder<SqliteDatabase>().UseSqlite($"Data Source={PathOf("first")}").Options));

    private string PathOf(string name) => Path.Combine(_folder, "inner", name + ".db");

    /// <summary>How many of the database's files, its log included, hold a text.</summary>
    private int BytesWith(string text)
        => Directory.GetFiles(Path.Combine(_folder, "inner")).Count(f =>
        {
            using FileStream stream = new(f, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            using MemoryStream copy = new();
            stream.CopyTo(copy);
            return copy.ToArray().AsSpan().IndexOf(Encoding.UTF8.GetBytes(text)) >= 0;
        });

    private async Task<object?> ScalarAsync(string sql)
    {
        await using SqliteConnection connection = new($"Data Source={PathOf("first")}");
        await connection.OpenAsync(Cancellation);
        await using SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // every statement is a constant of this file
        command.CommandText = sql;
#pragma warning restore CA2100
        return await command.ExecuteScalarAsync(Cancellation);
    }
}
