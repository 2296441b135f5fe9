using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace Homestretch.Store;

/// <summary>Lets <c>dotnet ef migrations add</c> see the model; the program itself never uses it.</summary>
internal sealed class DesignTimeDatabase : IDesignTimeDbContextFactory<HomestretchDatabase>
{
    /// <inheritdoc/>
    public HomestretchDatabase CreateDbContext(string[] args)
        => new(new DbContextOptionsBuilder<HomestretchDatabase>().UseSqlite("Data Source=:memory:").Options);
}
