using Npgsql;
using Xunit;

namespace SiteProgress.TestSupport;

/// <summary>
/// A database for one test class: copied from a migrated template when the class begins, dropped when it ends.
/// A test project derives from it once, saying how the product migrates, and its test classes take that as their class fixture.
/// </summary>
/// <example>
/// <code>
/// public sealed class StoreDatabase() : TestDatabase(
///     typeof(SiteProgressDb).Module.ModuleVersionId.ToString(),
///     async target => await StoreMigration.RunAsync(target.OwnerConnectionString, target.WebConnectionString, CancellationToken.None));
/// </code>
/// </example>
/// <param name="schema">
/// What tells one state of the schema from another, such as the version id of the module that holds the migrations. Test
/// projects that give the same text share one template.
/// </param>
/// <param name="migrate">Brings an empty database with PostGIS up to date, as the product itself does.</param>
public abstract class TestDatabase(string schema, Func<MigrationTarget, Task> migrate) : IAsyncLifetime
{
    /// <summary>Name of the database on the shared server.</summary>
    public string Name { get; } = "test_" + Guid.NewGuid().ToString("N");

    /// <summary>Connection string of the account that owns the tables.</summary>
    public string OwnerConnectionString => TestCluster.ConnectionString(Name, TestCluster.OwnerAccount);

    /// <summary>Connection string of the account the web application works with.</summary>
    public string WebConnectionString => TestCluster.ConnectionString(Name, TestCluster.WebAccount);

    /// <summary>Both connection strings, for the product's own commands.</summary>
    public MigrationTarget Target => new(OwnerConnectionString, WebConnectionString);

    /// <summary>Connection string of the server's administrator, for what a test has to do behind the product's back.</summary>
    public string AdministratorConnectionString => TestCluster.ConnectionString(Name);

    /// <inheritdoc />
    public virtual async ValueTask InitializeAsync()
    {
        var template = await TemplateDatabase.EnsureAsync(schema, migrate);
        await TestCluster.ExecuteAsync("postgres", $"create database {Name} template {template} owner {TestCluster.OwnerAccount}");
    }

    /// <inheritdoc />
    public virtual async ValueTask DisposeAsync()
    {
        GC.SuppressFinalize(this);
        foreach (var text in new[] { OwnerConnectionString, WebConnectionString, AdministratorConnectionString })
        {
            using var connection = new NpgsqlConnection(text);
            NpgsqlConnection.ClearPool(connection);
        }

        await TestCluster.ExecuteAsync("postgres", $"drop database if exists {Name} with (force)");
    }
}
