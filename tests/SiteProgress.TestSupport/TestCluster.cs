using Npgsql;

namespace SiteProgress.TestSupport;

/// <summary>The PostgreSQL server the tests of this run share, as <c>./test</c> hands it over.</summary>
/// <remarks>
/// It is thrown away after the run, and all its accounts have one password: those that
/// <c>scripts/private-cluster.sh</c> makes (<c>siteprogress_admin</c>, <c>siteprogress_owner</c>) and the web's,
/// which the product's own migration makes.
/// </remarks>
public static class TestCluster
{
    /// <summary>Environment variable that holds the administrator's connection string.</summary>
    public const string Variable = "SITEPROGRESS_TEST_CLUSTER";

    /// <summary>Account that owns the tables and migrates them.</summary>
    public const string OwnerAccount = "siteprogress_owner";

    /// <summary>Account the web application works with.</summary>
    public const string WebAccount = "siteprogress_web";

    /// <summary>Connection string of the administrator, to the database <c>postgres</c>.</summary>
    /// <exception cref="InvalidOperationException">No server was handed over; the message says how to get one.</exception>
    public static string AdministratorConnectionString
    {
        get
        {
            var text = Environment.GetEnvironmentVariable(Variable);
            if (string.IsNullOrWhiteSpace(text))
            {
                throw new InvalidOperationException(
                    $"{Variable} is not set, so there is no PostgreSQL to test with. Run ./test, or start a server for this "
                    + "shell: eval \"$(scripts/private-cluster.sh test-start)\"");
            }

            return text;
        }
    }

    /// <summary>A connection string to the shared server.</summary>
    /// <param name="database">Name of the database.</param>
    /// <param name="account">One of the accounts named here; the administrator when left out.</param>
    public static string ConnectionString(string database, string? account = null)
    {
        var builder = new NpgsqlConnectionStringBuilder(AdministratorConnectionString) { Database = database };
        if (account is not null)
        {
            builder.Username = account;
        }

        return builder.ConnectionString;
    }

    /// <summary>Runs one statement as the administrator, on a connection that is closed afterwards.</summary>
    internal static async Task ExecuteAsync(string database, string statement, CancellationToken cancellation = default)
    {
        await using var connection = await OpenAsync(database, cancellation);
        await using var command = new NpgsqlCommand(statement, connection);
        await command.ExecuteNonQueryAsync(cancellation);
    }

    /// <summary>
    /// Opens a connection of the administrator outside the pool: an idle pooled connection would keep the database from
    /// being copied or dropped.
    /// </summary>
    internal static async Task<NpgsqlConnection> OpenAsync(string database, CancellationToken cancellation)
    {
        var text = new NpgsqlConnectionStringBuilder(ConnectionString(database)) { Pooling = false, CommandTimeout = 120 };
        var connection = new NpgsqlConnection(text.ConnectionString);
        await connection.OpenAsync(cancellation);
        return connection;
    }
}
