using Microsoft.EntityFrameworkCore;

namespace Homestretch.Store;

/// <summary>The tables in a PostgreSQL database; its migrations are those marked with this type.</summary>
public sealed class PostgresDatabase(DbContextOptions<PostgresDatabase> options) : HomestretchDatabase(options);
