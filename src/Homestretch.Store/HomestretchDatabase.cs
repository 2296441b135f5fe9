using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Store;

/// <summary>The tables. Dates and times are ISO 8601 text, so that the file can be read without this program.</summary>
public sealed class HomestretchDatabase(DbContextOptions<HomestretchDatabase> options) : DbContext(options)
{
    /// <summary>All cases, removed ones included.</summary>
    public DbSet<StoredCase> Cases => Set<StoredCase>();

    /// <summary>All files of all cases.</summary>
    public DbSet<StoredFile> Files => Set<StoredFile>();

    /// <inheritdoc/>
    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        ArgumentNullException.ThrowIfNull(configurationBuilder);
        configurationBuilder.Properties<LocalDate>().HaveConversion<DateText>();
        configurationBuilder.Properties<Instant>().HaveConversion<InstantText>();
        configurationBuilder.Properties<FileRole>().HaveConversion<string>();
    }

    /// <inheritdoc/>
    protected override void OnModelCreating(ModelBuilder modelBuilder)
    {
        ArgumentNullException.ThrowIfNull(modelBuilder);
        modelBuilder.Entity<StoredCase>(entity =>
        {
            entity.ToTable("cases");
            entity.HasKey(c => c.Key);
            entity.HasMany(c => c.Files).WithOne().HasForeignKey(f => f.CaseKey).OnDelete(DeleteBehavior.Cascade);
        });
        modelBuilder.Entity<StoredFile>(entity =>
        {
            entity.ToTable("files");
            entity.HasKey(f => f.Id);
            entity.HasIndex(f => new { f.CaseKey, f.Position }).IsUnique();
        });
    }

    private sealed class DateText() : ValueConverter<LocalDate, string>(
        date => LocalDatePattern.Iso.Format(date),
        text => LocalDatePattern.Iso.Parse(text).Value);

    // Fixed width, so that text order is time order.
    private sealed class InstantText() : ValueConverter<Instant, string>(
        instant => InstantPattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss.fffffff'Z'").Format(instant),
        text => InstantPattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss.fffffff'Z'").Parse(text).Value);
}
