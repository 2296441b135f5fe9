using Microsoft.EntityFrameworkCore;

using Npgsql;

namespace Homestretch.Store.Tests;

/// <summary>On a real PostgreSQL server, which <c>eng/postgres</c> starts; skipped where there is none.</summary>
public sealed class PostgresStoreTests : CaseStoreTests, IAsyncDisposable
{
    private readonly string _name = "test_" + Guid.NewGuid().ToString("N");
    private readonly HashSet<string> _made = [];

    protected override string[] Place => ["server", ConnectionTo("first")];

    private static string Server
    {
        get
        {
            string? server = Environment.GetEnvironmentVariable("HOMESTRETCH_TEST_POSTGRES");
            Assert.SkipWhen(string.IsNullOrEmpty(server), "There is no PostgreSQL server here; run this through eng/postgres.");
            return server!;
        }
    }

    public async ValueTask DisposeAsync()
    {
        foreach (string database in _made)
        {
            await CommandAsync($"DROP DATABASE {database} WITH (FORCE)");
        }
    }

    protected override async Task<CaseStore> OpenAsync(string name = "first")
    {
        if (_made.Add($"{_name}_{name}"))
        {
            await CommandAsync($"CREATE DATABASE {_name}_{name}");
        }

        return await CaseStore.OpenServerAsync(ConnectionTo(name), Cancellation);
    }

    protected override Task<HomestretchDatabase> DatabaseAsync()
        => Task.FromResult<HomestretchDatabase>(new PostgresDatabase(new DbContextOptionsBuilder<PostgresDatabase>().UseNpgsql(ConnectionTo("first")).Options));

    private string ConnectionTo(string name) => new NpgsqlConnectionStringBuilder(Server) { Database = $"{_name}_{name}", Pooling = false }.ToString();

    private static async Task CommandAsync(string sql)
    {
        await using NpgsqlConnection connection = new(Server);
        await connection.OpenAsync(CancellationToken.None);
#pragma warning disable CA2100 // made of constants and a random number
        await using NpgsqlCommand command = new(sql, connection);
#pragma warning restore CA2100
        await command.ExecuteNonQueryAsync(CancellationToken.None);
    }
}
