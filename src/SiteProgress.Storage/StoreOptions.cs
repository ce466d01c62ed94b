using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace SiteProgress.Storage;

/// <summary>How the store is reached.</summary>
public static class StoreOptions
{
    /// <summary>A data source for raw commands and bulk copies.</summary>
    public static NpgsqlDataSource DataSource(string connectionString)
    {
        NpgsqlDataSourceBuilder builder = new(connectionString);
        builder.UseNetTopologySuite();
        return builder.Build();
    }

    /// <summary>Context options over a connection string of their own.</summary>
    public static DbContextOptions<SiteProgressDb> For(string connectionString)
        => Configure(new DbContextOptionsBuilder<SiteProgressDb>(), DataSource(connectionString)).Options;

    /// <summary>Context options over a shared data source.</summary>
    public static DbContextOptionsBuilder<SiteProgressDb> Configure(
        DbContextOptionsBuilder<SiteProgressDb> builder, NpgsqlDataSource source)
        => (DbContextOptionsBuilder<SiteProgressDb>)Configure((DbContextOptionsBuilder)builder, source);

    /// <summary>Context options over a shared data source.</summary>
    public static DbContextOptionsBuilder Configure(DbContextOptionsBuilder builder, NpgsqlDataSource source)
        => builder.UseNpgsql(source, npgsql =>
            npgsql.UseNetTopologySuite().MigrationsHistoryTable("schema_version", "account"));
}
