using Npgsql;
using Shouldly;
using SiteProgress.TestSupport;
using Xunit;

namespace SiteProgress.Storage.Tests.TestDatabases;

/// <summary>The databases the other tests stand on.</summary>
public sealed class TestDatabaseTests
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Databases_asked_for_at_the_same_time_are_copies_of_one_template_that_is_migrated_once()
    {
        var schema = Guid.NewGuid().ToString();
        var migrations = 0;
        Task Migrate(MigrationTarget target)
        {
            Interlocked.Increment(ref migrations);
            return ExecuteAsync(target.OwnerConnectionString, "create table pile (number text, place geometry(point))");
        }

        var databases = Enumerable.Range(0, 4).Select(_ => new SomeDatabase(schema, Migrate)).ToList();
        await Task.WhenAll(databases.Select(database => database.InitializeAsync().AsTask()));

        migrations.ShouldBe(1);
        databases.Select(database => database.Name).Distinct().Count().ShouldBe(4);
        await ExecuteAsync(databases[0].OwnerConnectionString, "insert into pile values ('A-1', st_point(1, 2))");
        (await CountAsync(databases[0])).ShouldBe(1);
        (await CountAsync(databases[1])).ShouldBe(0);

        foreach (var database in databases)
        {
            await database.DisposeAsync();
        }
    }

    [Fact]
    public async Task A_database_is_gone_after_its_test_class()
    {
        var database = new SomeDatabase("nothing in it", _ => Task.CompletedTask);
        await database.InitializeAsync();
        await ExecuteAsync(database.OwnerConnectionString, "select 1");
        await database.DisposeAsync();

        var opening = await Should.ThrowAsync<PostgresException>(() => ExecuteAsync(database.OwnerConnectionString, "select 1"));
        opening.SqlState.ShouldBe(PostgresErrorCodes.InvalidCatalogName);
    }

    [Fact]
    public async Task A_template_whose_migration_failed_is_made_anew_by_the_next_who_asks()
    {
        var schema = Guid.NewGuid().ToString();
        var broken = new SomeDatabase(schema, _ => throw new InvalidOperationException("the migration failed"));
        await Should.ThrowAsync<InvalidOperationException>(() => broken.InitializeAsync().AsTask());

        var database = new SomeDatabase(schema, target => ExecuteAsync(target.OwnerConnectionString, "create table pile (number text)"));
        await database.InitializeAsync();
        (await CountAsync(database)).ShouldBe(0);
        await database.DisposeAsync();
    }

    private static async Task ExecuteAsync(string connectionString, string statement)
    {
        await using var source = NpgsqlDataSource.Create(connectionString);
        await using var command = source.CreateCommand(statement);
        await command.ExecuteNonQueryAsync(Cancellation);
    }

    private static async Task<long> CountAsync(TestDatabase database)
    {
        await using var source = NpgsqlDataSource.Create(database.OwnerConnectionString);
        await using var command = source.CreateCommand("select count(*) from pile");
        return (long)(await command.ExecuteScalarAsync(Cancellation))!;
    }

    private sealed class SomeDatabase(string schema, Func<MigrationTarget, Task> migrate) : TestDatabase(schema, migrate);
}
