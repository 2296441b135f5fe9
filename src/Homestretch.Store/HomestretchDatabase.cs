using System.Globalization;
using System.Linq.Expressions;

using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Store;

/// <summary>The tables. Dates and times are ISO 8601 text, so that they can be read without this program and mean the same on every database.</summary>
/// <param name="options">Which database, and how to reach it.</param>
public abstract class HomestretchDatabase(DbContextOptions options) : DbContext(options)
{
    /// <summary>All exams.</summary>
    public DbSet<StoredExam> Exams => Set<StoredExam>();

    /// <summary>All cases, removed ones included.</summary>
    public DbSet<StoredCase> Cases => Set<StoredCase>();

    /// <summary>What lists say of every case.</summary>
    public DbSet<CaseFigures> Figures => Set<CaseFigures>();

    /// <inheritdoc/>
    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        ArgumentNullException.ThrowIfNull(configurationBuilder);
        configurationBuilder.Properties<LocalDate>().HaveConversion<DateText>();
        configurationBuilder.Properties<Instant>().HaveConversion<InstantText>();
        configurationBuilder.Properties<Enum>().HaveConversion<string>();
    }

    /// <inheritdoc/>
    protected override void OnModelCreating(ModelBuilder modelBuilder)
    {
        ArgumentNullException.ThrowIfNull(modelBuilder);
        modelBuilder.Entity<StoredExam>(entity =>
        {
            entity.ToTable("exams");
            entity.HasKey(e => e.Key);
            entity.HasMany(e => e.Files).WithOne().HasForeignKey(f => f.ExamKey).OnDelete(DeleteBehavior.Cascade);
            entity.HasMany(e => e.Versions).WithOne().HasForeignKey(v => v.ExamKey).OnDelete(DeleteBehavior.Cascade);
        });
        modelBuilder.Entity<StoredExamVersion>(entity =>
        {
            entity.ToTable("exam_versions");
            entity.HasKey(v => v.Id);
        });
        modelBuilder.Entity<StoredExamFile>(entity =>
        {
            entity.ToTable("exam_files");
            entity.HasKey(f => f.Id);
        });
        modelBuilder.Entity<StoredCase>(entity =>
        {
            entity.ToTable("cases");
            entity.HasKey(c => c.Key);
            entity.HasOne(c => c.Exam).WithMany().HasForeignKey(c => c.ExamKey).OnDelete(DeleteBehavior.Restrict);
            entity.Ignore(c => c.CurrentExamDay);
            Rows(entity, "files", c => c.Files);
            Rows(entity, "evidence", c => c.Evidence).Ignore(r => r.Cells);
            Rows(entity, "sessions", c => c.Sessions).Ignore(r => r.Cells);
            Rows(entity, "plans", c => c.Plans);
            Rows(entity, "decisions", c => c.Decisions);
            Rows(entity, "results", c => c.Results);
            Rows(entity, "words", c => c.Words);
            Rows(entity, "recalls", c => c.Recalls);
            EntityTypeBuilder<PersonalLink> links = Rows(entity, "links", c => c.Links);
            links.HasIndex(l => l.PageHash).IsUnique();
            links.HasIndex(l => l.FeedHash).IsUnique();
        });
        modelBuilder.Entity<CaseFigures>(entity =>
        {
            entity.ToTable("figures");
            entity.HasKey(f => f.CaseKey);
            entity.HasOne<StoredCase>().WithOne().HasForeignKey<CaseFigures>(f => f.CaseKey).OnDelete(DeleteBehavior.Cascade);
        });

        EntityTypeBuilder<T> Rows<T>(EntityTypeBuilder<StoredCase> cases, string table, Expression<Func<StoredCase, IEnumerable<T>?>> of)
            where T : KeptRow
        {
            cases.HasMany(of).WithOne().HasForeignKey(r => r.CaseKey).OnDelete(DeleteBehavior.Cascade);
            EntityTypeBuilder<T> rows = modelBuilder.Entity<T>();
            rows.ToTable(table);
            rows.HasKey(r => r.Id);
            return rows;
        }
    }

    private sealed class DateText() : ValueConverter<LocalDate, string>(
        date => LocalDatePattern.Iso.Format(date),
        text => Day(text));

    // A list reads tens of thousands of dates, all of them written above, so they are taken apart by their fixed places.
    private static LocalDate Day(string text) => new(Number(text, 0, 4), Number(text, 5, 2), Number(text, 8, 2));

    private static int Number(string text, int at, int length) => int.Parse(text.AsSpan(at, length), NumberStyles.None, CultureInfo.InvariantCulture);

    // Fixed width, so that text order is time order.
    private sealed class InstantText() : ValueConverter<Instant, string>(
        instant => InstantPattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss.fffffff'Z'").Format(instant),
        text => InstantPattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss.fffffff'Z'").Parse(text).Value);
}
