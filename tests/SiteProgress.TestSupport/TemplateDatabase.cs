using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Npgsql;

namespace SiteProgress.TestSupport;

/// <summary>
/// A migrated, empty database that the databases of test classes are copied from. It is made once for each state of the
/// schema, whichever test project comes first; the others wait for it.
/// </summary>
internal static class TemplateDatabase
{
    // Any number does, as long as nothing else on the throw-away server takes the same advisory lock.
    private const long LockNumber = 7_305_221_904;

    /// <summary>Makes the template when it is missing, and gives its name.</summary>
    /// <param name="schema">What tells one state of the schema from another.</param>
    /// <param name="migrate">Brings an empty database with PostGIS up to date.</param>
    public static async Task<string> EnsureAsync(string schema, Func<MigrationTarget, Task> migrate)
    {
        var name = "template_" + Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(schema)))[..16];
        await using var connection = await TestCluster.OpenAsync("postgres", CancellationToken.None);
        await ExecuteAsync(connection, $"select pg_advisory_lock({LockNumber.ToString(CultureInfo.InvariantCulture)})");
        // The lock ends with the connection, also when making the template fails.
        if (!await IsWholeAsync(connection, name))
        {
            await MakeAsync(connection, name, migrate);
        }

        return name;
    }

    private static async Task MakeAsync(NpgsqlConnection connection, string name, Func<MigrationTarget, Task> migrate)
    {
        await ExecuteAsync(connection, $"drop database if exists {name} with (force)");
        await ExecuteAsync(connection, $"create database {name} owner {TestCluster.OwnerAccount}");
        await TestCluster.ExecuteAsync(name, "create extension postgis");
        await migrate(new MigrationTarget(
            TestCluster.ConnectionString(name, TestCluster.OwnerAccount),
            TestCluster.ConnectionString(name, TestCluster.WebAccount)));
        NpgsqlConnection.ClearAllPools();
        // Nobody may be connected to a database that is copied. Being a closed template is also the mark that it is whole.
        await ExecuteAsync(connection, $"alter database {name} with is_template true allow_connections false");
        await ExecuteAsync(connection, $"select pg_terminate_backend(pid) from pg_stat_activity where datname = '{name}'");
    }

    private static async Task<bool> IsWholeAsync(NpgsqlConnection connection, string name)
    {
        await using var command = new NpgsqlCommand("select datistemplate from pg_database where datname = $1", connection)
        {
            Parameters = { new() { Value = name } },
        };
        return await command.ExecuteScalarAsync() is true;
    }

    private static async Task ExecuteAsync(NpgsqlConnection connection, string statement)
    {
        await using var command = new NpgsqlCommand(statement, connection);
        await command.ExecuteNonQueryAsync();
    }
}
