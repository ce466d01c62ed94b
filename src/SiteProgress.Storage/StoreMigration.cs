using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace SiteProgress.Storage;

/// <summary>Brings a store to this version's schema, with the owner's connection.</summary>
public static class StoreMigration
{
    /// <summary>Creates or updates schema, web role and grants.</summary>
    /// <param name="ownerConnectionString">Connection of the role that owns the store.</param>
    /// <param name="webConnectionString">Connection the web will use; its user is created where missing, with its password.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>Null, or in one sentence why the store is left as it was.</returns>
    public static async Task<string?> RunAsync(string ownerConnectionString, string? webConnectionString, CancellationToken cancellation)
    {
        await using NpgsqlDataSource source = StoreOptions.DataSource(ownerConnectionString);
        await using SiteProgressDb db = new((DbContextOptions<SiteProgressDb>)StoreOptions.Configure(new DbContextOptionsBuilder<SiteProgressDb>(), source).Options);
        if (!await PostgisIsInstalledAsync(source, cancellation))
        {
            return "The database server has no PostGIS extension; install it (on Debian: apt-get install postgresql-15-postgis-3) and start again.";
        }

        string[] unknown = await NewerMigrationsAsync(db, source, cancellation);
        if (unknown.Length > 0)
        {
            return $"The store was written by a newer version of SiteProgress (it knows '{unknown[0]}'); start that version instead. Nothing was changed.";
        }

        await db.Database.MigrateAsync(cancellation);
        await GrantAsync(source, webConnectionString, cancellation);
        return null;
    }

    /// <summary>True when every migration of this version is applied and no other.</summary>
    public static async Task<bool> IsCurrentAsync(SiteProgressDb db, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        IEnumerable<string> applied = await db.Database.GetAppliedMigrationsAsync(cancellation);
        return applied.Order().SequenceEqual(db.Database.GetMigrations().Order());
    }

    private static async Task<bool> PostgisIsInstalledAsync(NpgsqlDataSource source, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = source.CreateCommand("select exists (select from pg_available_extensions where name = 'postgis')");
        return (bool)(await command.ExecuteScalarAsync(cancellation))!;
    }

    private static async Task<string[]> NewerMigrationsAsync(SiteProgressDb db, NpgsqlDataSource source, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = source.CreateCommand("select to_regclass('account.schema_version') is not null");
        if (!(bool)(await command.ExecuteScalarAsync(cancellation))!) return [];
        IEnumerable<string> applied = await db.Database.GetAppliedMigrationsAsync(cancellation);
        return applied.Except(db.Database.GetMigrations()).ToArray();
    }

    private static async Task GrantAsync(NpgsqlDataSource source, string? webConnectionString, CancellationToken cancellation)
    {
        NpgsqlConnectionStringBuilder web = new(webConnectionString ?? "");
        string user = string.IsNullOrEmpty(web.Username) ? "siteprogress_web" : web.Username;
        await using NpgsqlConnection connection = await source.OpenConnectionAsync(cancellation);
        await using (NpgsqlCommand owner = new("select current_user = $1", connection))
        {
            owner.Parameters.AddWithValue(user);
            if ((bool)(await owner.ExecuteScalarAsync(cancellation))!) return;
        }

        // Role statements take no parameters; format() quotes what is put into them.
        string create = web.Password is null
            ? "select format('do $do$ begin if not exists (select from pg_roles where rolname = %L) then create role %I nologin; end if; end $do$', $1::text, $1::text)"
            : "select format('do $do$ begin if not exists (select from pg_roles where rolname = %L) then create role %I login password %L; else alter role %I login password %L; end if; end $do$', $1::text, $1::text, $2::text, $1::text, $2::text)";
        await ExecuteFormattedAsync(connection, create, [user, web.Password ?? ""], cancellation);
        foreach (string grant in Grants) await ExecuteFormattedAsync(connection, $"select format('{grant}', $1::text)", [user], cancellation);
    }

    private static readonly string[] Grants =
    [
        "grant usage on schema record, derived, account to %I",
        "grant select, insert on all tables in schema record to %I",
        "revoke insert on record.site from %I",
        "grant select, insert, update, delete on all tables in schema derived to %I",
        "grant select, insert, update, delete on all tables in schema account to %I",
        "revoke insert, update, delete on account.schema_version from %I",
        "grant usage on all sequences in schema record, account to %I",
        "grant select on public.spatial_ref_sys to %I",
    ];

    private static async Task ExecuteFormattedAsync(NpgsqlConnection connection, string formatting, string[] values, CancellationToken cancellation)
    {
        await using NpgsqlCommand format = new(formatting, connection);
        foreach (string value in formatting.Contains("$2", StringComparison.Ordinal) ? values : values[..1]) format.Parameters.AddWithValue(value);
        string statement = (string)(await format.ExecuteScalarAsync(cancellation))!;
        await using NpgsqlCommand command = new(statement, connection);
        await command.ExecuteNonQueryAsync(cancellation);
    }
}
