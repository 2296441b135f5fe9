using System.Data.Common;

using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Homestretch.Store;

/// <summary>Sets, on every connection to a SQLite file, what is not kept in the file: a commit is on the disk before it is acknowledged, and what is deleted is overwritten with zeros.</summary>
internal sealed class SafeWriting : DbConnectionInterceptor
{
    private const string Settings = "PRAGMA synchronous=FULL; PRAGMA secure_delete=ON;";

    /// <inheritdoc/>
    public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData)
    {
        using DbCommand command = connection.CreateCommand();
        command.CommandText = Settings;
        command.ExecuteNonQuery();
    }

    /// <inheritdoc/>
    public override async Task ConnectionOpenedAsync(DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
    {
        await using DbCommand command = connection.CreateCommand();
        command.CommandText = Settings;
        await command.ExecuteNonQueryAsync(cancellationToken);
    }
}
