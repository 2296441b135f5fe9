using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace Homestretch.Store;

/// <summary>Lets <c>dotnet ef migrations add</c> see the model on PostgreSQL; the program itself never uses it.</summary>
internal sealed class DesignTimePostgres : IDesignTimeDbContextFactory<PostgresDatabase>
{
    /// <inheritdoc/>
    public PostgresDatabase CreateDbContext(string[] args) => new(new DbContextOptionsBuilder<PostgresDatabase>().UseNpgsql("Host=none").Options);
}
