using Microsoft.EntityFrameworkCore;

namespace Homestretch.Store;

/// <summary>The tables in a SQLite file; its migrations are those marked with this type.</summary>
public sealed class SqliteDatabase(DbContextOptions<SqliteDatabase> options) : HomestretchDatabase(options);
