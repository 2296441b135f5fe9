using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace Homestretch.Store;

/// <summary>Lets <c>dotnet ef migrations add</c> see the model on SQLite; the program itself never uses it.</summary>
internal sealed class DesignTimeSqlite : IDesignTimeDbContextFactory<SqliteDatabase>
{
    /// <inheritdoc/>
    public SqliteDatabase CreateDbContext(string[] args) => new(new DbContextOptionsBuilder<SqliteDatabase>().UseSqlite("Data Source=:memory:").Options);
}
